// A trial's runs, noted with a number and one of two buttons; kept on the phone until they are saved as a table.

const RUNS_FROM = /^\s*(?:(\d{1,3}):)?(\d{1,6}(?:[.,]\d{1,6})?)\s*$/;
let runs = [];

// A result in the trial's unit: 4.83, 4,83 or 1:23.5 for minutes and seconds; null where it is none.
// A setting as it is read aloud: "rear=@lsr=10,hsr=4" is "rear lsr 10, hsr 4".
function readAloud(setting) {
  return setting.replace(/=?@/g, " ").replace(/\b([a-z]{1,3})=(\d+)/g, "$1 $2").replace(/(\d),(?=[a-z])/g, "$1, ");
}

function runResult(text) {
  const found = RUNS_FROM.exec(text);
  if (!found) return null;
  const value = Number(found[2].replace(",", "."));
  return found[1] === undefined ? value : value < 60 ? 60 * Number(found[1]) + value : null;
}

function trialNow() {
  return { name: byId("trial-name").value, result: byId("trial-result").value, runs: runs };
}

function fillTrial(kept) {
  if (!kept) return;
  byId("trial-name").value = kept.name || "";
  byId("trial-result").value = kept.result || "";
  runs = (kept.runs || []).filter((run) => ["a", "b"].includes(run.setting) && Number.isFinite(run.result));
}

function trialNamed() {
  return DATA.trials.find((one) => one.name === byId("trial-name").value.trim());
}

// What the trial's plan has next, with what was driven before and what was noted here.
function nextRun() {
  const trial = trialNamed();
  return trial && trial.plan ? trial.plan[(trial.runs + runs.length) % trial.plan.length] : "";
}

function drawTrial() {
  const trial = trialNamed();
  const next = nextRun();
  byId("trial-what").textContent = trial
    ? "a: " + readAloud(trial.a) + ". b: " + readAloud(trial.b) + ". Next: " + next + "."
    : "A name of your own will do; at home the trial of that name takes the runs.";
  ["a", "b"].forEach((side) => byId("trial-" + side).classList.toggle("main", next === "" || next === side));
  byId("trial-unit").textContent = "Result" + (trial && trial.unit ? " in " + trial.unit : ", a number");
  byId("trial-runs").replaceChildren(...runs.map((run) => el("li", { text: run.setting + " " + run.result })));
  byId("trial-keep").hidden = runs.length === 0;
}

// What was typed without the trial's own unit behind it.
function withoutUnit(text) {
  const trial = trialNamed();
  const unit = trial && trial.unit ? trial.unit : "";
  const typed = text.trim();
  return unit && typed.toLowerCase().endsWith(unit.toLowerCase()) ? typed.slice(0, -unit.length) : typed;
}

function noteRun(side) {
  const input = byId("trial-result");
  const value = runResult(withoutUnit(input.value));
  tellFault(input, byId("trial-fault"), value === null ? "Write a number first, such as 4.83 or 1:23.5." : "");
  if (value === null) {
    input.focus();
    return;
  }
  runs.push({ setting: side, result: value, at: Date.now() });
  input.value = "";
  byId("trial-written").hidden = true;
  byId("trial-saved").textContent = "Noted as run " + runs.length + ": " + side + " " + value + ".";
  drawTrial();
  remember(noteNow());
  input.focus();
}

function takeRunBack() {
  const last = runs.pop();
  if (!last) return;
  byId("trial-written").hidden = true;
  byId("trial-saved").textContent = "Taken back: " + last.setting + " " + last.result + ".";
  drawTrial();
  remember(noteNow());
}

function trialText() {
  const trial = trialNamed();
  const head = "run,setting,result" + (trial && trial.unit ? " [" + trial.unit + "]" : "") + ",clock [s]";
  const since = (run) => Math.round((run.at - runs[0].at) / 1000) || 0;
  return [head, ...runs.map((run, n) => [n + 1, run.setting, run.result, since(run)].join(","))].join("\n") + "\n";
}

function trialFile() {
  const plain = byId("trial-name").value.replace(/[^A-Za-z0-9]+/g, "-").replace(/^-+|-+$/g, "").toLowerCase();
  return [plain || "trial", "runs", today()].join("-") + ".csv";
}

function trialWords(begin) {
  const name = byId("trial-name").value.trim();
  return begin + " At home: dynoan trial run " + (/^[\w.-]*$/.test(name) ? name || "NAME" : '"' + name + '"') + " --from " + trialFile();
}

function showRuns(words) {
  byId("trial-text").value = trialText();
  byId("trial-written").hidden = false;
  byId("trial-saved").textContent = words;
}

function saveRuns() {
  saveText(trialText(), trialFile(), "text/csv");
  showRuns(trialWords("Saved as " + trialFile() + "."));
}

function copyRuns() {
  showRuns(trialWords("The text is selected: copy it into a file named " + trialFile() + "."));
  byId("trial-text").select();
  if (document.execCommand("copy")) byId("trial-saved").textContent = trialWords("Copied. Paste it into a file named " + trialFile() + ".");
}

function buildTrial() {
  byId("trial-names").replaceChildren(...DATA.trials.map((one) => el("option", { value: one.name })));
  if (!byId("trial-name").value && DATA.trials.length) byId("trial-name").value = DATA.trials[DATA.trials.length - 1].name;
  byId("trial-name").addEventListener("input", () => { drawTrial(); remember(noteNow()); });
  byId("trial-result").addEventListener("input", () => remember(noteNow()));
  ["a", "b"].forEach((side) => byId("trial-" + side).addEventListener("click", () => noteRun(side)));
  byId("trial-back").addEventListener("click", takeRunBack);
  byId("trial-save").addEventListener("click", saveRuns);
  byId("trial-copy").addEventListener("click", copyRuns);
  drawTrial();
}
