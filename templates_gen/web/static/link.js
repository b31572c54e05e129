// A cake, or a cake file, in the fragment of an address: it never reaches a server.

const MARK = "#cake=";
const FILE = "#file="; // as a double-click on a file opens it
const LONGEST = 32000; // characters of a link that browsers and messages carry whole
const LARGEST = 2000000; // bytes of a cake from a link

/** @param {BlobPart} bytes @param {GenericTransformStream} transform */
const through = (bytes, transform) =>
  new Response(new Blob([bytes]).stream().pipeThrough(/** @type {any} */ (transform))).arrayBuffer();

/** Return a link to a cake, or null where it would be too long. @param {any} cake @returns {Promise<string | null>} */
export async function linkTo(cake) {
  const packed = new Uint8Array(await through(JSON.stringify(cake), new CompressionStream("deflate-raw")));
  let binary = "";
  for (const byte of packed) binary += String.fromCharCode(byte);
  const text = btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
  const link = `${location.origin}${location.pathname}${MARK}${text}`;
  return link.length > LONGEST ? null : link;
}

export const isLinked = () => location.hash.startsWith(MARK) || isFile();
export const isFile = () => location.hash.startsWith(FILE);

/** Return the cake of the address, or the text and name of its file. Throws where it holds none that can be read. @returns {Promise<any>} */
export async function linked() {
  const text = location.hash.slice(MARK.length).replaceAll("-", "+").replaceAll("_", "/"); // both marks are as long
  const bytes = Uint8Array.from(atob(text), (char) => char.charCodeAt(0));
  const unpacked = await through(bytes, new DecompressionStream("deflate-raw"));
  if (unpacked.byteLength > LARGEST) throw new Error("too large");
  const cake = JSON.parse(new TextDecoder().decode(unpacked));
  if (!cake || typeof cake !== "object" || Array.isArray(cake)) throw new Error("no cake");
  return cake;
}
