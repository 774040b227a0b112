function scrollerOf(element: Element): Element | null {
  return element.closest(".work-sheet, .tray");
}

/** Scrolls the sheet, and nothing around it, so that the element stands at its top. */
export function scrollToTop(element: Element): void {
  const scroller = scrollerOf(element);
  if (!scroller) return;
  scroller.scrollTop += element.getBoundingClientRect().top - scroller.getBoundingClientRect().top;
}

/** Scrolls the sheet only as far as it takes to see the element: its top, if it is too tall. */
export function scrollIntoSight(element: Element, room_px = 12): void {
  const scroller = scrollerOf(element);
  if (!scroller) return;
  const box = element.getBoundingClientRect();
  const frame = scroller.getBoundingClientRect();
  const keypad = document.querySelector(".keypad")?.getBoundingClientRect();
  const bottom = Math.min(frame.bottom, keypad?.top ?? frame.bottom) - room_px;
  const top = frame.top + room_px;
  if (box.top < top) scroller.scrollTop += box.top - top;
  else if (box.bottom > bottom) scroller.scrollTop += Math.min(box.bottom - bottom, box.top - top);
}
