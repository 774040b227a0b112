// How the invented truck stands: turned and lifted by what is asked, with one made-up number.
export function poseOf(document, question) {
  const bodies = { frame: { R: rolled(0), p: [0, 0, 0] } };
  const numbers = {};
  if (question.settled) {
    const drop = { bare: 0.008, road: -0.004, towing: -0.02 }[question.state] ?? 0;
    bodies.frame = { R: pitched(drop * -0.6), p: [0, 0, drop] };
  }
  for (const id of Object.keys(document.axles ?? {})) {
    const heave = question.heave?.[id] ?? 0;
    const roll = question.roll?.[id] ?? 0;
    const height = 0.4;
    bodies[id] = {
      R: rolled(roll),
      p: [0, height * Math.sin(roll), heave + height * (1 - Math.cos(roll))],
    };
    const caster = -heave * 30;
    numbers[id] = [
      {
        id: id === "front" ? "caster_change" : "nose_up",
        label: "Caster change",
        value: { si: (caster * Math.PI) / 180, text: `${caster.toFixed(1)}°`.replace("-", "−") },
      },
    ];
  }
  const limit = (question.heave?.front ?? 0) > 0.1;
  return { bodies, numbers, locked: limit ? "The front shocks are solid." : null };
}

function rolled(angle) {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [
    [1, 0, 0],
    [0, c, -s],
    [0, s, c],
  ];
}

function pitched(angle) {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [
    [c, 0, s],
    [0, 1, 0],
    [-s, 0, c],
  ];
}
