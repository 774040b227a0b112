import type { Where } from "./client";

/** What the part of the address after # names; null: nothing, so the program's choice. */
export type Address = { page: "shop" } | { page: "start" } | ({ page: "bench" } & Where) | null;

export function addressOf(hash: string): Address {
  const [first = "", second] = hash.replace(/^#/, "").split("/").map(decodeURIComponent);
  if (first === "") return null;
  if (first === "shop") return { page: second === "new" ? "start" : "shop" };
  return { page: "bench", build: first, variant: second ? second : null };
}

export function hashOf(address: Exclude<Address, null>): string {
  if (address.page === "shop") return "#shop";
  if (address.page === "start") return "#shop/new";
  const variant = address.variant === null ? "" : `/${encodeURIComponent(address.variant)}`;
  return `#${encodeURIComponent(address.build)}${variant}`;
}

/** Goes there; the page follows the address. */
export function goTo(address: Exclude<Address, null>): void {
  window.location.hash = hashOf(address);
}
