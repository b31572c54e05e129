// Elements. Text is always set as text, never as markup.

const SVG = "http://www.w3.org/2000/svg";

/**
 * @typedef {Record<string, any>} Attributes an attribute, or a listener as onclick
 * @typedef {Node | string | null | undefined} Child
 * @typedef {{size: [number, number], lines: Record<string, string>, labels: any[],
 *   parts?: {at: [number, number], lines: Record<string, string>}[]}} DrawingData
 */

/** @template {Element} T @param {T} element @param {Attributes} attributes @param {Child[]} children @returns {T} */
function fill(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (value === true) element.setAttribute(name, "");
    else if (value !== false && value !== null && value !== undefined) element.setAttribute(name, value);
  }
  element.append(.../** @type {(Node | string)[]} */ (children.filter((child) => child !== null && child !== undefined)));
  return element;
}

/** @param {string} name @param {Attributes} attributes @param {Child[]} children @returns {any} the element, of its own type */
export const el = (name, attributes = {}, ...children) =>
  fill(document.createElement(name), attributes, children);

/** @param {string} name @param {Attributes} attributes @param {Child[]} children @returns {SVGElement} */
export const svg = (name, attributes = {}, ...children) =>
  fill(document.createElementNS(SVG, name), attributes, children);

/** An element of the page, of its own type; null where there is none. @type {(id: string) => any} */
export const byId = (id) => document.getElementById(id);

/** @param {Record<string, string>} lines */
const paths = (lines) => Object.entries(lines).map(([word, d]) => svg("path", { class: word, d }));

// Put a drawing into an svg element: lines by what is done along them, and its words. One that
// is put together has parts, each with its lines and where it stands.
/** @param {Element} target @param {DrawingData} drawing @param {boolean} words */
export function draw(target, drawing, words = false) {
  target.setAttribute("viewBox", `0 0 ${drawing.size.join(" ")}`);
  const parts = drawing.parts
    ? drawing.parts.map((part) => svg("g", { transform: `translate(${part.at.join(" ")})` }, ...paths(part.lines)))
    : paths(drawing.lines);
  for (const label of words ? drawing.labels : []) {
    const [x, y] = label.at;
    parts.push(svg("text", {
      x, y, "font-size": label.size, "text-anchor": label.anchor,
      "font-weight": label.bold ? "bold" : null,
      transform: label.turn ? `rotate(${label.turn} ${x} ${y})` : null,
    }, label.text));
  }
  target.replaceChildren(...parts);
}
