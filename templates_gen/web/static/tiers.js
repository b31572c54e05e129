// Tiers put on, moved, copied and taken away. While all are called by their place, each is called by its new one.

import { description, textOf, tiers, unitOf } from "./model.js";
import { change } from "./store.js";

const BY_PLACE = /^(cake|bottom|middle|top|tier \d+)$/i;

/** What tiers are called from the bottom up, as the server calls those of a line of sizes. @param {number} count */
const places = (count) => (count === 1 ? ["cake"]
  : ["bottom", ...(count === 3 ? ["middle"] : Array.from({ length: count - 2 }, (_, index) => `tier ${index + 2}`)), "top"]);

/** Change which tiers there are, in which order. @param {(tiers: any[]) => void} edit */
function restack(edit) {
  change(({ cake }) => {
    const before = tiers();
    const names = before.map((tier) => textOf(tier?.name));
    cake.tier = [...before];
    edit(cake.tier);
    if (names.length && names.every((name) => BY_PLACE.test(name))) rename(cake, before, names);
    if (!cake.tier.length) delete cake.tier;
  });
}

/** Call tiers by their place, where a cascade starts and ends too; one that went with its tier starts and ends where is usual. @param {any} cake @param {any[]} before @param {string[]} names of those before */
function rename(cake, before, names) {
  const found = places(cake.tier.length);
  for (const [index, tier] of cake.tier.entries()) tier.name = found[index];
  for (const each of Array.isArray(cake.cascade) ? cake.cascade : []) {
    for (const key of ["start", "end"]) {
      const tier = before[names.indexOf(each[key])];
      if (cake.tier.includes(tier)) each[key] = tier.name;
      else if (tier) delete each[key];
    }
  }
}

/** @param {number} from @param {number} to */
export const moveTier = (from, to) => restack((all) => all.splice(to, 0, ...all.splice(from, 1)));

/** @param {number} index */
export const removeTier = (index) => restack((all) => all.splice(index, 1));

/** Put a twin above a tier. @param {number} index */
export const copyTier = (index) => restack((all) => {
  const twin = structuredClone(all[index]);
  if (twin.name) twin.name = freshName(twin.name);
  all.splice(index + 1, 0, twin);
});

export const addTier = () => restack((all) => all.push(nextTier(all.at(-1))));

/** A name for a copy of a tier. @param {string} name */
function freshName(name) {
  const taken = new Set(tiers().map((tier) => tier.name));
  const stem = name.replace(/ \d+$/, "");
  for (let number = 2; ; number += 1) {
    if (!taken.has(`${stem} ${number}`)) return `${stem} ${number}`;
  }
}

/** A tier to go on top: as the one below, but smaller where its size is a plain number. @param {any} below */
function nextTier(below) {
  const unit = unitOf();
  if (!below) return { ...(description.units[unit] ?? description.units.mm).first };
  const [number, word] = textOf(below.size).trim().split(/\s+/);
  const less = Number(number) - (description.units[word ?? unit]?.smaller ?? Infinity);
  const size = less > Number(number) / 2 ? [less, word].join(" ").trim() : below.size;
  return { size, depth: below.depth };
}
