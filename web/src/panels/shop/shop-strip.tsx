import { DarkKey } from "../common/dark-key";

/** The strip over the screens that are about the shop and not about one build. */
export function ShopStrip({ title, back }: { title: string; back?: boolean }) {
  return (
    <header className="title-strip">
      {back && (
        <a className="quiet key" href="#shop">
          Shop
        </a>
      )}
      <h1>{title || "Shop"}</h1>
      <div className="strip-keys">
        <DarkKey />
      </div>
    </header>
  );
}
