// A cake in the fragment of an address: it never reaches a server.

const MARK = "#cake=";
const LONGEST = 200000;

const through = (bytes, transform) =>
  new Response(new Blob([bytes]).stream().pipeThrough(transform)).arrayBuffer();

export async function linkTo(cake) {
  const packed = new Uint8Array(await through(JSON.stringify(cake), new CompressionStream("deflate-raw")));
  let binary = "";
  for (const byte of packed) binary += String.fromCharCode(byte);
  const text = btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
  return `${location.origin}${location.pathname}${MARK}${text}`;
}

// Return the cake of the address, or null; an address that holds none that can be read says so.
export async function linked() {
  if (!location.hash.startsWith(MARK) || location.hash.length > LONGEST) return null;
  const text = location.hash.slice(MARK.length).replaceAll("-", "+").replaceAll("_", "/");
  const bytes = Uint8Array.from(atob(text), (char) => char.charCodeAt(0));
  const unpacked = await through(bytes, new DecompressionStream("deflate-raw"));
  if (unpacked.byteLength > LONGEST) throw new Error("too long");
  const cake = JSON.parse(new TextDecoder().decode(unpacked));
  return cake && typeof cake === "object" && !Array.isArray(cake) ? cake : null;
}
