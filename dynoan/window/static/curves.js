// Turning: each click asks the window for the curves from its tables and draws them anew.
import { Chart, written } from "./chart.js";
import { SILENT, answerTo, late, standsApart, standsAt } from "./page.js";
import { counted, el, stepper } from "./stepper.js";

const written_here = document.getElementById("data");
const start = written_here ? JSON.parse(written_here.textContent) : {};
const form = document.getElementById("settings");
if (start.found) begin();

function begin() {
  const { units, packs, most } = start;
  const standings = { tested: "Tested: this setting was on the dyno", between: "Between: its clicks lie between tested ones",
    outside: "Outside: beyond all tests, do not rely on it" };
  const number = (value, kind) => written(value / units[kind].factor, units[kind].digits);
  const withUnit = (value, kind) => number(value, kind) + " " + units[kind].unit;
  const apart = (value, kind) => [number(value, kind), el("span", { class: "u", text: " " + units[kind].unit })];  // no room on a phone: the head has it
  const signed = (value, places) => (value > 0 && Number(value.toFixed(places)) > 0 ? "+" : "") + written(value, places);
  const under = document.getElementById("under");
  let curves = start.found.curves;
  let settled = curves.map((c) => ({ ...c }));  // as the picture and the tables show them
  let asked = 0;
  let count = curves.length;
  addEventListener("popstate", () => location.reload());

  const chart = new Chart(document.getElementById("chart"), units, (velocity, values) => {
    under.replaceChildren(el("b", { text: velocity === null ? "Touch or point at the picture, or use the arrow keys" : withUnit(velocity, "velocity") }),
      ...values.map((v, i) => el("span", {}, el("i", { class: "swatch s" + i }),
        v ? withUnit(v.force, "force") + " (" + number(v.low, "force") + " to " + number(v.high, "force") + ")" : "beyond its tests")));
  });
  const wide = document.getElementById("wide");
  wide.hidden = false;
  wide.addEventListener("click", () => {
    chart.wide = !chart.wide;
    wide.setAttribute("aria-pressed", String(chart.wide));
    chart.draw();
  });
  document.getElementById("plain").hidden = true;
  const see = /** @type {HTMLElement} */ (document.querySelector(".see"));
  const picture = document.getElementById("chart");
  new ResizeObserver(() => {
    see.style.setProperty("--lead", picture.offsetTop + "px");
    document.documentElement.style.setProperty("--held", see.offsetHeight - picture.offsetTop + 12 + "px");
  }).observe(see);

  const written_out = (one) => {
    const clicks = Object.entries(one.clicks).map(([k, v]) => k + "=" + v).join(",");
    return one.pack + (clicks ? "@" + clicks : "");
  };

  async function turn(wanted) {
    const mine = ++asked;
    const query = wanted.map((s) => "s=" + encodeURIComponent(s)).join("&");
    late(true);
    const answer = await answerTo("/curves/data?" + query);
    if (mine !== asked) return;
    if (answer?.status === 202) { location.assign("/curves?" + query); return; }
    const found = await answer?.json().catch(() => null);
    if (mine !== asked) return;
    late(false);
    if (!answer?.ok || !found) { back(found?.error || SILENT); return; }
    const before = curves.map((c) => c.pack + c.adjusters.map((a) => a.name)).join();
    curves = found.curves;
    settled = curves.map((c) => ({ ...c }));
    const other = found.curves.length !== count;
    count = found.curves.length;
    (other ? standsApart : standsAt)("/curves?" + query);
    chart.show(curves);
    if (before === curves.map((c) => c.pack + c.adjusters.map((a) => a.name)).join()) refresh(); else build();
    if (mine === asked) setTimeout(() => { if (mine === asked) tables(found); }, 60);
    document.dispatchEvent(new CustomEvent("turned"));
  }

  function back(why) {
    curves = settled.map((c) => ({ ...c }));
    const at = document.activeElement?.getAttribute("aria-label"), place = document.activeElement?.closest("[data-i]")?.getAttribute("data-i");
    build();
    const again = /** @type {HTMLElement} */ ([...form.querySelectorAll('[data-i="' + place + '"] [aria-label]')].find((e) => e.getAttribute("aria-label") === at));
    again?.focus();
    under.replaceChildren(el("span", { class: "fault", text: why }));
  }

  function step(i, name, way) {
    const one = curves[i];
    const adjuster = one.adjusters.find((a) => a.name === name);
    const click = Math.min(Math.max(one.clicks[name] + way, 0), adjuster.last);
    if (click === one.clicks[name]) return;
    one.clicks = { ...one.clicks, [name]: click };
    const field = /** @type {HTMLInputElement} */ (form.querySelector('[data-i="' + i + '"] input[name="' + name + '"]'));
    field.value = String(click);
    turn(curves.map(written_out));
  }

  function knob(i, one, a) {
    const typed = (event) => {
      const v = Math.round(Number(event.target.value));
      if (Number.isFinite(v)) step(i, a.name, v - curves[i].clicks[a.name]);
      event.target.value = curves[i].clicks[a.name];
    };
    return stepper(a, one.adjusters, { id: "k" + i + "-" + a.name, more: { name: a.name, value: one.clicks[a.name], onchange: typed },
      turn: (way) => step(i, a.name, way) });
  }

  function build() {
    form.parentElement.classList.toggle("many", curves.length > 2);  // two by two beside the picture, not a tower
    form.replaceChildren(...curves.map((one, i) => el("fieldset", { class: "card setting", "data-i": i },
      el("legend", { class: "unseen", text: "Setting " + (i + 1) }),
      el("div", { class: "row which" },
        el("label", { class: "field" }, el("span", {}, el("i", { class: "swatch s" + i }), " " + (i ? "Pack " + (i + 1) : curves.length > 1 ? "Reference pack" : "Pack")),
          el("select", { onchange: (event) => { const all = curves.map(written_out); all[i] = event.target.value + keep(one); turn(all); } },
            ...packs.map((p) => el("option", { value: p, text: p, selected: p === one.pack })))),
        curves.length > 1 ? el("button", { type: "button", class: "quiet", onclick: () => turn(curves.filter((_, k) => k !== i).map(written_out)), text: "Remove", "aria-label": "Remove setting " + (i + 1) }) : ""),
      el("p", { class: "standing " + one.standing, text: standings[one.standing] }),
      ...one.adjusters.map((a) => knob(i, one, a)), counted(one.adjusters))),
    curves.length < most ? el("button", { type: "button", class: "main", onclick: () => turn([...curves.map(written_out), beside()]), text: "Add a setting" }) : "");
  }

  // A pack that is not shown yet, at the same clicks; where all are, the one shown least and longest ago, a click apart.
  function beside() {
    const last = curves[curves.length - 1];
    const shown = (p) => curves.filter((c) => c.pack === p).length;
    const other = packs.reduce((best, p) => shown(p) < shown(best) ? p : best);
    if (!shown(other)) return other + keep(last);
    const one = curves.findLast((c) => c.pack === other);
    const clicks = { ...one.clicks };
    for (const a of one.adjusters.slice(0, 1)) clicks[a.name] += clicks[a.name] < a.last ? 1 : -1;
    return written_out({ ...one, clicks });
  }

  // Another pack keeps the clicks that both can have.
  function keep(one) {
    const clicks = Object.entries(one.clicks).map(([k, v]) => k + "=" + v).join(",");
    return clicks ? "@" + clicks : "";
  }

  function refresh() {
    curves.forEach((one, i) => {
      const place = form.querySelector('[data-i="' + i + '"]');
      const standing = place.querySelector(".standing");
      standing.className = "standing " + one.standing;
      standing.textContent = standings[one.standing];
    });
  }

  function tables(found) {
    document.querySelectorAll("#forces table").forEach((/** @type {HTMLTableElement} */ table) => {
      const direction = table.dataset.direction;
      table.tHead.replaceChildren(el("tr", {}, el("th", { scope: "col" }, direction[0].toUpperCase() + direction.slice(1),
        el("small", { class: "u-head", text: units.velocity.unit + ", " + units.force.unit })), ...found.curves.map((c, i) => el("th", { scope: "col", class: "num" }, el("i", { class: "swatch s" + i }), " ", el("bdi", { text: c.pack }), el("br"),
          el("small", { text: Object.values(c.clicks).join(" · ") })))));
      table.tBodies[0].replaceChildren(...found.table.filter((row) => row.direction === direction).map((row) => el("tr", {},
        el("th", { scope: "row" }, ...apart(row.velocity_m_s, "velocity")), ...row.force_n.map((f, i) => cell(row, f, i)))));
    });
    document.getElementById("forces").className = found.curves.length === 1 ? "two alone" : found.curves.length < 4 ? "two" : "stack";
    document.getElementById("numbers").textContent = found.curves.length > 1 ? "Forces, and the difference from the first" : "Forces";
    const worth = /** @type {HTMLTableElement} */ (document.getElementById("worth"));
    const first = found.curves[0].worth;
    if (!worth || !first.length) return;  // the page was made before its click map was there, and comes anew
    worth.tHead.replaceChildren(el("tr", {}, el("th", { scope: "col", text: "A click of" }),
      ...first[0].velocity_m_s.map((v) => el("th", { class: "num", text: withUnit(v, "velocity") }))));
    worth.tBodies[0].replaceChildren(...first.map((w) => el("tr", {},
      el("th", { scope: "row" }, w.adjuster, el("br"), el("small", { text: "on " + w.direction + (w.cross_talk ? ", not meant to" : "") })),
      ...(w.tested ? w.force_n_per_click.map((n, k) => el("td", { class: "num" }, withUnit(-n, "force"), el("br"), el("small", { text: signed(-w.force_pct_per_click[k], 1) + " %" })))
        : [el("td", { colspan: w.force_n_per_click.length, text: "not tested: no run has it at another click" })]))));
  }

  function cell(row, f, i) {
    if (f === null) return el("td", { class: "num", text: "–" });
    const off = row.difference_pct[i];
    return el("td", { class: "num" }, ...apart(f, "force"), " ",
      el("small", { class: "limits", text: number(row.low_n[i], "force") + " to " + number(row.high_n[i], "force") }),
      ...(i && off !== null ? [" ", el("span", { class: "off" }, el("b", { text: signed(off, 0) + " %" }), " ", el("small", {}, ...apart(row.difference_n[i], "force")))] : []));
  }

  chart.show(curves);
  chart.read(null);
  build();
}
