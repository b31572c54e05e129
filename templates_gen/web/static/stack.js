// The parts of the cake as small silhouettes, from the top down: each opens its panel.

import { el, svg } from "./dom.js";
import { sentence, textOf, tierName, tiers, unitOf } from "./model.js";

/** @typedef {{across: number, depth: number}} Size */

/** @type {Map<string, Size>} of what is typed of a tier, so that one that was changed shows no size it had before */
let sizes = new Map();

const typed = (/** @type {any} */ tier) => JSON.stringify([unitOf(), tier?.size, tier?.depth, tier?.shape]);

/** Take the shape of each tier from what the server has worked out, mm. @param {Size[]} found */
export function setSizes(found) {
  sizes = new Map(found.map((size, index) => [typed(tiers()[index]), size]));
}

/** @param {number} index @param {string} shape */
export function silhouette(index, shape) {
  const largest = Math.max(...[...sizes.values()].map((each) => Math.max(each.across, each.depth)), 1);
  const size = sizes.get(typed(tiers()[index]));
  const { across, depth } = size ?? { across: largest / 2, depth: largest / 3 };
  const [wide, tall] = [across / largest * 40, depth / largest * 40];
  const form = shape === "ball"
    ? svg("ellipse", { cx: 22, cy: 22, rx: wide / 2, ry: tall / 2 })
    : svg("rect", { x: 22 - wide / 2, y: 22 - tall / 2, width: wide, height: tall, rx: shape === "square" || shape === "rectangle" ? 0 : 3 });
  return svg("svg", { class: size ? "silhouette" : "silhouette unknown", viewBox: "0 0 44 44", "aria-hidden": "true" }, form);
}

/** @param {HTMLElement} root @param {string} here what is open: "cake", or "tier.1" @param {(path: (string | number)[]) => void} open @param {() => void} add */
export function showStack(root, here, open, add) {
  const button = (/** @type {string} */ id, /** @type {Element | null} */ picture, /** @type {string} */ name, /** @type {string} */ what, /** @type {() => void} */ onclick) =>
    el("button", { type: "button", id: `go-${id}`, "aria-current": here === id ? "true" : null, onclick },
      picture, el("span", {}, el("b", {}, name), what ? el("span", {}, what) : null));
  root.replaceChildren(
    button("cake", null, "Whole cake", "", () => open([])),
    ...tiers().map((tier, index) => button(`tier.${index}`, silhouette(index, tier.shape), sentence(tierName(index)),
      `${textOf(tier.size)} × ${textOf(tier.depth)}`, () => open(["tier", index]))).reverse(),
    el("button", { type: "button", id: "add-tier", onclick: add }, "Add a tier"));
  const current = root.querySelector("[aria-current]");
  if (current) root.scrollLeft = /** @type {HTMLElement} */ (current).offsetLeft - root.offsetLeft - (root.clientWidth - current.clientWidth) / 2;
}
