import { memo } from "react";
import { join } from "../../api/pointer";
import { Collection } from "../fields/collection";
import { Fields } from "../fields/fields";

const kCollections: { key: string; title: string; shows: string[] }[] = [
  { key: "segments", title: "Cases, from the engine back", shows: ["kind", "length"] },
  { key: "mounts", title: "Mounts", shows: ["compression", "fate"] },
  { key: "outputs", title: "Outputs", shows: ["end", "slope"] },
  { key: "shafts", title: "Shafts", shows: ["/tube/outside_diameter", "/tube/wall"] },
  { key: "gears", title: "Gears", shows: ["ratio"] },
  { key: "ranges", title: "Ranges", shows: ["ratio"] },
  { key: "gaps", title: "Gaps beside the cases", shows: ["least"] },
  { key: "lifts", title: "Lifts", shows: ["hook"] },
];

const kWithout = kCollections.map((c) => c.key);

/** What is typed for the drivetrain, in the order of the job: the cases and what carries them, the
 * shafts, the gears, and what hangs on the hoist. */
export const DrivetrainInputs = memo(function DrivetrainInputs() {
  return (
    <>
      {kCollections.map(({ key, title, shows }) => (
        <Collection key={key} path={join("/drivetrain", key)} title={title} shows={shows} />
      ))}
      <h4>Engine, grip and hoist</h4>
      <Fields path="/drivetrain" without={kWithout} />
    </>
  );
});
