// What turns the cake without a pointer: a range, two buttons to step, and two views.

import { el } from "./dom.js";

const STEP = 15; // degrees
const ABOVE = 90;
const LEVEL = 14;

/** From where the cake is seen, in words. @param {number} turn degrees */
export function facing(turn) {
  const rounded = Math.round(turn);
  if (rounded === 0) return "the front";
  if (Math.abs(rounded) === 180) return "the back";
  return `${Math.abs(rounded)} degrees to the ${rounded > 0 ? "right" : "left"} of the front`;
}

export class Controls {
  /** @param {(turn?: number, tilt?: number) => void} turnTo */
  constructor(turnTo) {
    this.turn = 0;
    this.tilt = LEVEL;
    this.range = /** @type {HTMLInputElement} */ (el("input", {
      type: "range", min: "-180", max: "180", step: "5", value: "0", id: "turn", "aria-label": "Turn the cake",
      oninput: () => turnTo(Number(this.range.value)),
    }));
    this.above = el("button", {
      type: "button", "aria-pressed": "false", onclick: () => turnTo(undefined, this.tilt > 45 ? LEVEL : ABOVE),
    }, "From above");
    /** @param {string} sign @param {string} label @param {number} by */
    const step = (sign, label, by) => el("button", {
      type: "button", class: "step", "aria-label": label, onclick: () => turnTo(Math.round((this.turn + by) / STEP) * STEP),
    }, sign);
    this.element = el("div", { class: "cake-controls" },
      step("↻", "Turn the cake to the left", STEP), this.range, step("↺", "Turn the cake to the right", -STEP),
      el("button", { type: "button", onclick: () => turnTo(0, LEVEL) }, "Front"), this.above);
    this.show(0, LEVEL);
  }

  /** @param {number} turn @param {number} tilt */
  show(turn, tilt) {
    this.turn = turn;
    this.tilt = tilt;
    this.range.value = String(Math.round(turn));
    this.range.setAttribute("aria-valuetext", `seen from ${facing(turn)}`);
    this.above.setAttribute("aria-pressed", String(tilt > 45));
  }
}
