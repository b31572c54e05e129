// What is larger than its place is dragged with the mouse; a finger scrolls it as it is.

/** Let an element that scrolls sideways be dragged, and the page with it up and down. @param {HTMLElement} element */
export function pannable(element) {
  /** @type {{x: number, y: number, left: number, top: number} | null} */
  let held = null;
  element.addEventListener("pointerdown", (event) => {
    if (event.pointerType !== "mouse" || event.button !== 0) return;
    held = { x: event.clientX, y: event.clientY, left: element.scrollLeft, top: window.scrollY };
    element.setPointerCapture(event.pointerId);
  });
  element.addEventListener("pointermove", (event) => {
    if (!held) return;
    element.scrollLeft = held.left - (event.clientX - held.x);
    window.scrollTo(0, held.top - (event.clientY - held.y));
  });
  for (const end of ["pointerup", "pointercancel"]) element.addEventListener(end, () => { held = null; });
}
