// The ranked choices and the earlier setups, each with what it would put on the car.

const choicesHere = () => DATA.choices.filter((c) => c.where === state.where || members().includes(c.where));

function buildChoices() {
  const fits = choicesHere();
  const box = byId("choices");
  if (!fits.length) {
    box.replaceChildren(el("p", { class: "remark", text: DATA.choices.length
      ? "None for this place; look at another axle or corner."
      : "None on this page: the car's file has no targets, or the page was made without them." }));
    return;
  }
  box.replaceChildren(...fits.map((choice, i) => entry({
    title: (i + 1) + ". " + choice.pack,
    mark: "On the car",
    chips: choiceChips(choice),
    lines: [...choiceLines(choice), standingWord(choice.standing) + ", misses the targets by " + missText(choice)],
    action: "Use on " + reach(choice.clicks),
    words: "Use on " + reach(choice.clicks) + ": choice " + (i + 1) + ", " + choice.pack,
    does: () => does("choice " + (i + 1) + " put on " + reach(choice.clicks),
      () => ORDER.filter((n) => n in choice.clicks).forEach((n) => putOn(n, choice.pack, choice.clicks[n]))),
  })));
}

// A choice says whether it is on, which nobody who scrolled down to it sees above.
function fillChoices() {
  const on = (choice, name) => state.now[name].pack === choice.pack
    && Object.keys(choice.clicks[name]).every((a) => state.now[name].clicks[a] === choice.clicks[name][a]);
  choicesHere().forEach((choice, i) => {
    byId("choices").children[i].querySelector(".mark").hidden = !Object.keys(choice.clicks).every((name) => on(choice, name));
  });
}

// Which corners a setting goes on, in a word.
function reach(clicks) {
  const names = ORDER.filter((name) => name in clicks);
  const place = places().find((p) => JSON.stringify(p.members) === JSON.stringify(names));
  return place ? (place.members.length > 1 ? place.text.toLowerCase() : place.text) : names.map((n) => n.toUpperCase()).join(", ");
}

function choiceChips(choice) {
  const names = ORDER.filter((name) => name in choice.clicks);
  const alike = pair(names.map((name) => JSON.stringify(choice.clicks[name]))).length === 1;
  return alike ? [["", choice.clicks[names[0]]]] : names.map((name) => [name.toUpperCase(), choice.clicks[name]]);
}

function choiceLines(choice) {
  return DIRECTIONS.filter((d) => choice.ratio[d]).map((d) => capital(d) + " " + LEVELS.map((level) => {
    const value = choice.ratio[d][level];
    return value === null || value === undefined ? "–" : fixed(value, 2);
  }).join(" low, ") + " high");
}

function standingWord(standing) {
  return (STANDING[standing] || "Unknown:").split(":")[0];
}

function missText(choice) {
  return choice.miss === null ? "an unknown amount" : fixed(100 * choice.miss, 0) + "\u00a0%";
}

// One line of clicks, each its own chip so that a line never breaks inside one.
function chipRow(lead, clicks) {
  const chips = Object.keys(clicks).map((a) => el("li", { text: a + " " + clicks[a] }));
  return el("ul", { class: "chips" }, lead && el("li", { class: "lead", text: lead }), ...chips);
}

function entry(facts) {
  return el("article", { class: "entry" },
    el("div", { class: "text" }, el("h3", { text: facts.title }),
      facts.mark && el("p", { class: "mark" + (facts.bad ? " bad" : ""), text: facts.mark })),
    facts.does && el("button", { type: "button", text: facts.action, "aria-label": facts.words, on: { click: facts.does } }),
    el("div", { class: "rest" }, ...facts.chips.map((row) => chipRow(row[0], row[1])),
      ...facts.lines.filter(Boolean).map((line) => el("p", { text: line }))));
}

function buildSetups() {
  const box = byId("setups");
  const here = (setup) => (setup.surface === state.surface ? 0 : 1);
  const sorted = DATA.setups.map((s, i) => [s, i]).sort((a, b) => here(a[0]) - here(b[0]) || a[1] - b[1]).map((p) => p[0]);
  if (!sorted.length) {
    box.replaceChildren(el("p", { class: "remark", text: "None recorded yet." }));
    return;
  }
  box.replaceChildren(...sorted.map((setup) => {
    return entry({
      title: [setup.date, setup.surface].filter(Boolean).join(", "),
      mark: setup.good === true ? "Good" + (setup.result ? ": " + setup.result : "")
        : setup.good === false ? "Bad" + (setup.result ? ": " + setup.result : "") : setup.result,
      bad: setup.good === false,
      chips: setupChips(setup),
      lines: [setup.remarks],
      action: "Use on whole car", words: "Use on whole car: setup " + setup.name,
      does: () => does("setup of " + setup.date + " put on the whole car", () => putOnSetup(setup)),
    });
  }));
}

function setupChips(setup) {
  const known = ["fl", "fr", "rl", "rr"].filter((name) => setup.corners[name] && setup.corners[name].pack);
  const same = (a, b) => known.includes(a) && known.includes(b)
    && JSON.stringify([setup.corners[a].pack, setup.corners[a].clicks]) === JSON.stringify([setup.corners[b].pack, setup.corners[b].clicks]);
  const row = (word, name) => [word + " " + setup.corners[name].pack, setup.corners[name].clicks];
  return [["front", "fl", "fr"], ["rear", "rl", "rr"]].flatMap(([word, left, right]) => (same(left, right) ? [row(word, left)]
    : known.filter((name) => name === left || name === right).map((name) => row(name.toUpperCase(), name))));
}

// All corners that the setup names: pack, clicks, spring and weight.
function putOnSetup(setup) {
  ORDER.filter((name) => setup.corners[name]).forEach((name) => {
    const corner = setup.corners[name];
    if (corner.pack) putOn(name, corner.pack, corner.clicks);
    else Object.assign(state.now[name], { pack: null, clicks: {}, other: null });
    state.now[name].spring = corner.spring;
    if (corner.mass > DATA.corners[name].unsprung) state.now[name].mass = corner.mass;
  });
}
