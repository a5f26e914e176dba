// Writing the setup down: the fields, what is wrong with them, the file.

const NOTED = ["note-temperature", "note-result", "note-remarks"];

// What stands in the note's fields, so that a page that is put away and opened again loses nothing.
function noteNow() {
  const out = Object.fromEntries(NOTED.map((id) => [id, byId(id).value]));
  return Object.assign(out, { good: new FormData(byId("note")).get("good"), trial: trialNow() });
}

function fillNote(kept) {
  NOTED.forEach((id) => { if (kept[id]) byId(id).value = kept[id]; });
  const good = byId("note").querySelector('input[name="good"][value="' + (kept.good === "true" || kept.good === "false" ? kept.good : "") + '"]');
  good.checked = true;
  fillTrial(kept.trial);
  checkTemperature();
}

function fileText() {
  const kept = noteNow();
  return setupFile({ date: byId("note-date").value, surface: state.surface, good: kept.good,
    temperature: temperature(kept["note-temperature"]) || "", result: kept["note-result"].trim(), remarks: kept["note-remarks"].trim() });
}

// Whether the temperature can be written down; what is wrong with it stands at the field.
function checkTemperature() {
  const input = byId("note-temperature");
  const good = temperature(input.value) !== null;
  tellFault(input, byId("note-temperature-fault"), good ? "" : "Not a temperature outdoors: write 18, 18 °C or 64 °F.");
  return good;
}

function refusedNote() {
  if (checkTemperature()) return false;
  byId("saved").textContent = "Not saved yet: the temperature cannot be read.";
  byId("note-temperature").focus();
  return true;
}

function unknownCorners() {
  const open = ORDER.filter((name) => !known(name, state.now[name]) && !state.now[name].other);
  return open.length ? " What is not known was left out: " + open.map((n) => n.toUpperCase()).join(", ") + "." : "";
}

function fileName() {
  const plain = (text) => text.replace(/[^A-Za-z0-9]+/g, "-").replace(/^-+|-+$/g, "").toLowerCase();
  return [byId("note-date").value, plain(DATA.car), plain(state.surface)].filter(Boolean).join("-") + ".toml";
}

function showText(words) {
  byId("written-text").value = fileText();
  byId("written").hidden = false;
  byId("saved").textContent = words;
}

function saveText(text, name, type) {
  const url = URL.createObjectURL(new Blob([text], { type: type }));
  const link = el("a", { href: url, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 10000);
}

function saveFile(event) {
  event.preventDefault();
  if (refusedNote()) return;
  saveText(fileText(), fileName(), "application/toml");
  showText("Saved as " + fileName() + ". At home: dynoan setup record --from " + fileName() + "." + unknownCorners());
}

function copyText() {
  if (refusedNote()) return;
  showText("The text is selected: copy it, and keep it as " + fileName() + "." + unknownCorners());
  byId("written-text").select();
  if (document.execCommand("copy")) byId("saved").textContent = "Copied. Paste it into a file named " + fileName() + "." + unknownCorners();
}

function today() {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60000).toISOString().slice(0, 10);
}
