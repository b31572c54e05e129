// The beginning of a cake: sizes in one line, a sample, or a file. And the unit of what is typed.

import { byId, el } from "./dom.js";
import { cakeFields, sentence, unitOf } from "./model.js";
import { ask } from "./server.js";
import { change, current } from "./store.js";
import { say } from "./status.js";

/** @type {{sample: (name: string) => void, file: () => void, letters: () => void, made: () => void}} */
let acts = { sample: () => {}, file: () => {}, letters: () => {}, made: () => {} };

/** @param {typeof acts} found */
export function onStart(found) {
  acts = found;
}

const EXAMPLES = { in: "10x5, 8x5, 6x4", cm: "25x12, 20x12, 15x10", mm: "250x120, 200x120, 150x100" };

// Where the usual paper is Letter: Unicode CLDR 45, supplemental data, paperSize US-Letter.
const LETTER = "BZ CA CL CO CR GT MX NI PA PH PR SV US VE".split(" ");

/** What tins are sold by: by the inch where English is spoken, and in North America. */
const tinUnit = () => (/^en\b|-(?:US|CA)\b/.test(navigator.language) ? "in" : "cm");

// What is paid where neither £ nor the $ of the US is: Unicode CLDR 45, supplemental data, currencyData; Bulgaria since 2026.
/** @type {Record<string, string>} */
const CURRENCIES = {
  "€": "AD AT BE BG CY DE EE ES FI FR GR HR IE IT LT LU LV MC ME MT NL PT SI SK SM VA XK", $: "AR AU CA CL CO HK MX NZ SG TW",
  R: "ZA", "₹": "IN", R$: "BR", CHF: "CH LI", kr: "DK IS NO SE", zł: "PL",
};

/** Where the browser's language is from; English of no place is of no place. */
function region() {
  const [tag] = navigator.language.split("@"); // some Linux systems have “en-US@posix”
  try {
    const locale = new Intl.Locale(tag);
    return (locale.language === "en" ? locale.region : locale.maximize().region) ?? "";
  } catch {
    return "";
  }
}

/** An empty cake, on the paper, in the words and for the money usual where the browser's language is from. @param {string} unit */
export function freshCake(unit = tinUnit()) {
  const place = region();
  const currency = Object.keys(CURRENCIES).find((sign) => CURRENCIES[sign].split(" ").includes(place));
  return {
    unit, ...(LETTER.includes(place) ? { paper: "letter" } : {}), ...(place === "US" ? { words: "us" } : {}),
    ...(currency ? { prices: { currency } } : {}),
  };
}

const DEPTHS = { in: "4 in", cm: "10 cm", mm: "100 mm" };

/** What an empty cake says. */
export function invitation() {
  const names = (document.body.dataset.samples ?? "").split(" ").filter(Boolean);
  return [
    el("div", { class: "begin" },
      el("h2", { id: "panel-title", tabindex: "-1" }, "What are you making?"),
      stackLine(),
      unitSwitch(),
      el("p", {}, "Or bake a number or a letter. ", el("button", { type: "button", id: "start-letters", onclick: acts.letters }, "A number or letter cake…")),
      el("p", {}, "Or open a cake file that you saved before. ", el("button", { type: "button", onclick: acts.file }, "Open a file…"))),
    el("div", { class: "gallery" },
      el("h3", {}, "Or start from a sample"),
      el("div", { class: "choices samples" }, ...names.map((name) => el("button", { type: "button", class: "card", id: `sample-${name}`, onclick: () => acts.sample(name) },
        el("img", { src: `samples/${name}.svg`, alt: "", loading: "lazy" }), el("span", {}, sentence(name.replaceAll("-", " "))))))),
    el("div", { class: "check" },
      el("h3", {}, "When you print"),
      el("ol", { class: "advice print-check" }, ...(document.body.dataset.printCheck ?? "").split("|").map((line) => el("li", {}, line)))),
  ];
}

function stackLine() {
  const input = el("input", {
    id: "stack-line", type: "text", placeholder: EXAMPLES[/** @type {"in"} */ (unitOf())], spellcheck: "false",
    "aria-describedby": "stack-help stack-problem",
  });
  return el("form", { class: "stack-line", onsubmit: async (/** @type {Event} */ event) => {
    event.preventDefault();
    await make(input.value || input.placeholder);
  } },
  el("label", { for: "stack-line" }, "Sizes of the tiers, from the bottom up"),
  el("div", { class: "row" }, input, el("button", { type: "submit", class: "main", id: "stack-make" }, "Make the cake")),
  el("p", { class: "help", id: "stack-help" }, `Size × depth of each tier, such as ${EXAMPLES[/** @type {"in"} */ (unitOf())]}. Without depths, each tier is ${DEPTHS[/** @type {"in"} */ (unitOf())]} deep. Tiers are round unless you add a shape: ${EXAMPLES[/** @type {"in"} */ (unitOf())].split(", ")[1]} square.`),
  el("p", { class: "problem", id: "stack-problem", role: "alert" }));
}

/** Whether a cake has no length yet that a unit would change. @param {any} cake */
const isFresh = (cake) => Object.keys(cake).every((key) => ["unit", "paper", "words", "prices"].includes(key));

/** @param {string} line */
async function make(line) {
  try {
    const { tiers, unit } = await (await ask("stack", { line }, { unit: unitOf() })).json();
    change((doc) => {
      if (unit && isFresh(doc.cake)) doc.cake.unit = unit; // sizes typed in cm are answered in cm
      doc.cake.tier = tiers;
    });
    acts.made();
  } catch (error) {
    const problem = error.problems?.[0];
    byId("stack-line").focus();
    byId("stack-problem").textContent = problem ? `${sentence(problem.found)}. Write ${problem.allowed}.` : error.message;
  }
}

/** What numbers without a unit are in: all that is shown is converted, typed units stay. */
export function unitSwitch() {
  const choices = cakeFields().find((each) => each.key === "unit")?.choices ?? [];
  return el("fieldset", { class: "units", id: "f-unit" }, el("legend", {}, "Numbers without a unit are in"),
    ...choices.map((word) => {
      const radio = el("input", { type: "radio", name: "unit", id: `unit-${word}`, value: word, onchange: () => convert(word) });
      radio.checked = current().cake.unit === word;
      return el("label", { class: "tick" }, radio, { in: "inches", cm: "cm", mm: "mm" }[/** @type {"in"} */ (word)] ?? word);
    }),
    el("p", { class: "help" }, "You can type 8 1/2, 8.5 or 8½, or add another unit to any number: 5 mm."),
    el("p", { class: "problem", id: "f-unit-problem" }));
}

/** Convert the cake as it is when the answer is there: what was done meanwhile stays. @param {string} word */
async function convert(word) {
  const { id, cake: { unit } } = current();
  const before = JSON.stringify(current().cake);
  try {
    if (isFresh(current().cake) && unit !== word) { // what is typed next is in it, at once
      change((doc) => {
        doc.cake.unit = word;
      });
      byId(`unit-${word}`)?.focus();
      return;
    }
    const { cake } = await (await ask("convert", { cake: current().cake }, { unit: word })).json();
    if (current().id !== id) return;
    if (JSON.stringify(current().cake) !== before) {
      await convert(word);
      return;
    }
    change((doc) => {
      doc.cake = cake;
    });
  } catch (error) {
    say(error.message);
  }
  byId(`unit-${word}`)?.focus();
}
