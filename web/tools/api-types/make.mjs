// Makes the page's types of the interface from its published description.
//   node make.mjs            writes src/api/openapi.ts
//   node make.mjs --check    says whether it is current
// A package of its own: the generator works with an older compiler than the page's.
import { readFile, writeFile } from "node:fs/promises";
import openapiTS, { astToString } from "openapi-typescript";

const kDescription = new URL("../../../docs/openapi.json", import.meta.url);
const kTypes = new URL("../../src/api/openapi.ts", import.meta.url);
const kHead = "// Made from docs/openapi.json by npm run api. Not to be edited.\n";

const made = kHead + astToString(await openapiTS(kDescription, { alphabetize: false }));
if (process.argv[2] === "--check") {
  const kept = await readFile(kTypes, "utf8").catch(() => "");
  if (kept !== made) {
    console.error("src/api/openapi.ts is not what docs/openapi.json makes. Run npm run api.");
    process.exit(1);
  }
  console.log("src/api/openapi.ts is what docs/openapi.json makes.");
} else await writeFile(kTypes, made);
