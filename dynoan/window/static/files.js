// Dropped files go up one by one, with how far they are; a page without this script sends them as a form.
import { tell } from "./page.js";

const zone = document.getElementById("drop");
const input = /** @type {HTMLInputElement} */ (document.getElementById("files"));
const told = document.getElementById("uploading");
const halt = document.getElementById("halt");
const MOST = Number(zone.dataset.mostFiles);
const LARGEST = Number(zone.dataset.mostMb) * 1024 * 1024;

let silent = false;  // whether a file found nobody to take it: the page then stays, since there may be none to come

async function send(file, order) {
  if (file.size > LARGEST) return file.name + ": larger than " + zone.dataset.mostMb + " MB, too large for a dyno run";
  if (!file.size) return file.name + ": an empty file, or a folder";
  try {
    const answer = await fetch("/files/drop", { method: "PUT", body: file,
      headers: { "Dynoan-Name": encodeURIComponent(file.name), "Dynoan-Order": String(order), "Content-Type": "application/octet-stream" } });
    if (answer.ok) return "";
    return answer.status === 400 ? (await answer.json()).error : file.name + ": " + (await answer.text());
  } catch {
    silent = true;
    return file.name + ": the window did not answer; is the program still running?";
  }
}

async function take(files) {
  const all = [...files].slice(0, MOST);
  const faults = files.length > MOST ? [files.length + " files at once are too many: the first " + MOST + " were looked at. Keep them or take them off, then drop the others."] : [];
  const begun = Date.now() / 1000;
  let done = 0, sent = 0;
  silent = false;
  const nothing = document.getElementById("nothing");
  if (nothing) nothing.hidden = true;
  zone.dataset.busy = "1";
  halt.hidden = false;
  halt.querySelector("button").onclick = () => { faults.push(all.length + " of " + files.length + " files were not looked at: you stopped it. Drop them again when you like."); all.length = 0; };
  const next = async () => {
    while (all.length) {
      const fault = await send(all.shift(), begun + 0.001 * sent++);
      done += 1;
      told.textContent = "Looking at file " + done + " of " + Math.min(files.length, MOST);
      if (fault) faults.push(fault);
      if (faults.length > 20 && all.length) { faults.splice(20, Infinity, all.length + " files more were not looked at, after so many faults."); all.length = 0; }
    }
  };
  await Promise.all([next(), next(), next()]);
  if (silent) {
    [...new Set(faults)].forEach((fault) => tell(fault, true));
    halt.hidden = true;
    told.textContent = "";
    input.value = "";
    delete zone.dataset.busy;
    return;
  }
  if (faults.length) sessionStorage.setItem("faults", JSON.stringify([...new Set(faults)]));
  location.assign("/files");
}

JSON.parse(sessionStorage.getItem("faults") || "[]").forEach((fault) => {
  tell(fault, true);
});
sessionStorage.removeItem("faults");

document.getElementById("look").hidden = true;  // they are looked at by themselves
input.addEventListener("change", () => { if (input.files.length) take(input.files); });
["dragenter", "dragover"].forEach((name) => document.addEventListener(name, (event) => {
  event.preventDefault();
  zone.classList.add("over");
}));
document.addEventListener("dragleave", (event) => { if (!event.relatedTarget) zone.classList.remove("over"); });
document.addEventListener("drop", (event) => {
  event.preventDefault();
  zone.classList.remove("over");
  if (event.dataTransfer.files.length) take(event.dataTransfer.files);
});

// A file's card and its row of the table are two places for one answer: whichever form is sent takes along what was written in the other.
const table = /** @type {HTMLFormElement | null} */ (document.getElementById("fill-in"));
// The table that was just answered stays open.
if (table && location.hash === "#many") table.closest("details").open = true;
const changed = (form) => [.../** @type {Iterable<HTMLInputElement>} */ (form.elements)].filter((f) => f.name && f.type !== "submit" && f.value !== f.defaultValue);
const cards = /** @type {HTMLFormElement[]} */ ([...document.querySelectorAll("form[data-file]")]);
cards.forEach((card) => {
  const row = "row." + card.dataset.file + ".";
  card.addEventListener("formdata", (event) => {
    if (table) changed(table).filter((f) => f.name.startsWith(row)).forEach((f) => event.formData.append(f.name.slice(row.length), f.value));
  });
  table?.addEventListener("formdata", (event) => changed(card).forEach((f) => event.formData.append(row + f.name, f.value)));
});
