// The built page in dist/ is kept, so that the program builds without Node: it must be what its
// sources build to, and small enough for an old tablet.
import { readdirSync, readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";

const kMost_kB = 600;
const web = new URL("..", import.meta.url);
const at = (folder, name) => readFileSync(new URL(`${folder}/${name}`, web));
const names = (folder) => readdirSync(new URL(folder, web)).sort();

const built = names("dist-check");
const kept = names("dist");
const faults = [];
if (built.join() !== kept.join()) faults.push(`dist/ holds ${kept}, the sources make ${built}`);
for (const name of built.filter((n) => kept.includes(n))) {
  if (!at("dist", name).equals(at("dist-check", name))) faults.push(`dist/${name} is out of date`);
}
const size_kB = built.reduce((sum, n) => sum + gzipSync(at("dist-check", n)).length, 0) / 1000;
if (size_kB > kMost_kB)
  faults.push(`the page is ${size_kB.toFixed(0)} kB gzipped, over ${kMost_kB}`);

for (const fault of faults) console.error(fault);
if (faults.length > 0) {
  console.error("Run npm run build and commit dist/.");
  process.exit(1);
}
console.log(`dist/ is what its sources build to: ${size_kB.toFixed(0)} kB gzipped.`);
