// A cake file written without the server, for when there is none: all data, no comments.

const name = (/** @type {string} */ key) => (/^[\w-]+$/.test(key) ? key : JSON.stringify(key));
const isTable = (/** @type {any} */ value) => value !== null && typeof value === "object" && !Array.isArray(value);
const areTables = (/** @type {any} */ value) => Array.isArray(value) && value.length > 0 && value.every(isTable);

/** @param {any} value @returns {string} */
function written(value) {
  if (Array.isArray(value)) return `[${value.map(written).join(", ")}]`;
  if (typeof value === "string") return JSON.stringify(value).replaceAll("\u007f", "\\u007f");
  return String(value);
}

/** Return the text of a table and all below it. @param {any} table @param {string[]} path @returns {string} */
export function tomlOf(table, path = []) {
  const entries = Object.entries(table).filter(([, value]) => value !== null && value !== undefined);
  const plain = entries.filter(([, value]) => !isTable(value) && !areTables(value));
  const parts = [plain.map(([key, value]) => `${name(key)} = ${written(value)}\n`).join("")];
  for (const [key, value] of entries) {
    const inner = [...path, name(key)];
    if (isTable(value)) parts.push(`\n[${inner.join(".")}]\n${tomlOf(value, inner)}`);
    if (areTables(value)) parts.push(...value.map((/** @type {any} */ each) => `\n[[${inner.join(".")}]]\n${tomlOf(each, inner)}`));
  }
  return parts.join("");
}
