// What is on the car now as the text of a setup file.

function quoted(text) {
  const plain = String(text).replace(/[\u0000-\u001f\u007f]/g, " ");
  return '"' + plain.replace(/\\/g, "\\\\").replace(/"/g, '\\"') + '"';
}

// Shortest text that still holds nine significant digits.
function digits(value) {
  return String(Number(value.toPrecision(9)));
}

// What is known to be on a corner and nothing else.
function cornerLines(name) {
  const now = state.now[name];
  const on = now.pack === null ? now.other || { pack: null, clicks: {} } : now;
  const set = Object.keys(on.clicks).filter((a) => Number.isInteger(on.clicks[a]));
  const lines = [(DATA.corner_text[name] || "[" + name + "]").trim()];
  lines.push("mass = " + quoted(digits(now.mass) + " kg"));
  lines.push("spring = " + quoted(digits(now.spring / 1000) + " N/mm"));
  if (on.pack) lines.push("pack = " + quoted(on.pack));
  if (set.length) lines.push("clicks = " + quoted(set.map((a) => a + "=" + on.clicks[a]).join(",")));
  return lines.join("\n");
}

// The day's facts, the car as its file has it, and what is on its corners now.
function setupFile(facts) {
  const lines = ["setup.car = " + quoted(DATA.car), "setup.date = " + quoted(facts.date)];
  if (facts.surface) lines.push("setup.surface = " + quoted(facts.surface));
  if (facts.temperature) lines.push("setup.temperature = " + quoted(facts.temperature));
  if (facts.result) lines.push("setup.result = " + quoted(facts.result));
  if (facts.good) lines.push("setup.good = " + facts.good);
  if (facts.remarks) lines.push("setup.remarks = " + quoted(facts.remarks));
  return [lines.join("\n"), DATA.car_text.trim(), ...ORDER.map(cornerLines)].filter(Boolean).join("\n\n") + "\n";
}
