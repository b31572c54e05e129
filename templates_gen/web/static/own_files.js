// Files of the decorator's own: what one holds, and the cake file among several.

import { description } from "./model.js";

const ARTWORK = "is artwork. Choose it at a design, or open it together with its cake file.";
const TYPEFACE = "is a typeface. Choose it at the lettering, or open it together with its cake file.";
/** What is chosen in place of a cake file, by the ending of its name, and where it belongs. @type {Record<string, string>} */
const NO_CAKE = {
  svg: ARTWORK, ttf: TYPEFACE, otf: TYPEFACE,
  csv: "is a list. One of people belongs under Print, For a class.",
  pdf: "has pages to print. Choose the cake file that Save made.",
};

/** The text of a cake file; what is none, or too large for one, is not even read. @param {File} file */
export async function cakeText(file) {
  const other = NO_CAKE[file.name.split(".").pop()?.toLowerCase() ?? ""];
  if (other) throw new Error(`“${file.name}” ${other}`);
  if (file.size > description.largest_cake) {
    throw new Error(`“${file.name}” is larger than ${description.largest_cake / 1000} kB. A cake file is a short text: choose the one that Save made.`);
  }
  return file.text();
}

/** What a file holds, in base 64; one that is too large is refused in words. @param {File} file */
export async function contentOf(file) {
  if (file.size > description.largest_file) {
    throw new Error(`“${file.name}” is larger than ${description.largest_file / 1000} kB. Use a smaller file, or the command line.`);
  }
  let binary = "";
  for (const byte of new Uint8Array(await file.arrayBuffer())) binary += String.fromCharCode(byte);
  return btoa(binary);
}

/** The cake file among those chosen to open. @param {File[]} all */
export const cakeAmong = (all) => all.find((each) => each.name.endsWith(".toml")) ?? all[0];

/** What all others of them hold, by their names. @param {File[]} all @returns {Promise<Record<string, string>>} */
export async function besides(all) {
  const others = all.filter((each) => each !== cakeAmong(all));
  return Object.fromEntries(await Promise.all(others.map(async (each) => [each.name, await contentOf(each)])));
}
