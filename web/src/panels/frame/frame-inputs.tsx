import { memo } from "react";
import { join } from "../../api/pointer";
import { Collection } from "../fields/collection";
import { Fields } from "../fields/fields";

const kCollections: { key: string; title: string; shows: string[] }[] = [
  { key: "steels", title: "Steels", shows: ["yield"] },
  { key: "rails", title: "Rails", shows: ["/section/depth", "/section/thickness"] },
  { key: "plates", title: "Boxing plates", shows: ["from", "to", "fate"] },
  { key: "holes", title: "Holes", shows: ["wall", "station", "fate"] },
  { key: "crossmembers", title: "Crossmembers", shows: ["/at/station", "fate"] },
  { key: "mounts", title: "Mounts", shows: ["station", "fate"] },
  { key: "pulls", title: "Winch and recovery points", shows: ["pull"] },
  { key: "drive_torques", title: "Torque of the shafts", shows: ["torque"] },
  { key: "stages", title: "Stages of the work", shows: [] },
];

const kWithout = kCollections.map((c) => c.key);

/** What is typed for the frame: what it is made of, what joins it, what sits on it, and the stages. */
export const FrameInputs = memo(function FrameInputs() {
  return (
    <>
      <h4>Frame</h4>
      <Fields path="/frame" without={kWithout} />
      {kCollections.map(({ key, title, shows }) => (
        <Collection key={key} path={join("/frame", key)} title={title} shows={shows} />
      ))}
    </>
  );
});
