// Where each piece is: its own place, plus its moves, plus the spread. Millimetres of the unit.

const SPREAD = [0.55, 1.3, 0.7]; // a cabinet is shallow, so it is drawn apart furthest in depth

const SHORT = 0.4; // metres: longer ways to a place are shown from this far

function startPlaces(bodies, moves, outline, steps) {
  const middle = outline.low.map((low, axis) => (low + outline.high[axis]) / 2000);
  const travels = moves.map(() => 0);
  // Which step brings each piece; one that no step brings is there from the start.
  const brought = bodies.map(() => null);
  steps.forEach((step, which) => {
    for (const index of step.pieces) if (brought[index] === null) brought[index] = which;
  });
  let spread = 0;
  let built = steps.length;
  let isStale = false;

  function go(index, direction, way) {
    const { at } = bodies[index];
    at.set(at.x + way * direction[0], at.y + way * direction[1], at.z + way * direction[2]);
  }
  // Worked out before a picture is drawn, however many hands moved something meanwhile.
  function settle() {
    if (!isStale) return false;
    isStale = false;
    bodies.forEach((body, index) => {
      body.isThere = brought[index] === null || built > brought[index];
      const [x, y, z] = SPREAD.map((share, axis) => (
        spread * share * (body.middle.getComponent(axis) - middle[axis])
      ));
      body.at.set(body.home.x + x, body.home.y + y, body.home.z + z);
    });
    moves.forEach((move, which) => {
      for (const index of move.members) go(index, move.direction, travels[which] / 1000);
    });
    // What is left of each step's way, 0 to 1. A later step may move what stands already.
    steps.forEach((step, which) => {
      const left = Math.min(Math.max(1 - (built - which), 0), 1);
      if (built <= which || left === 0) return;
      const way = -left * Math.min(step.travel / 1000, SHORT);
      for (const index of step.members) go(index, step.direction, way);
    });
    return true;
  }

  return {
    settle,
    travel(which, distance) { travels[which] = distance; isStale = true; },
    spread(share) { spread = share; isStale = true; },
    build(count) { built = count; isStale = true; },
    // The middle of a piece where it is now, in the frame of the model's root, metres.
    middle(index) {
      const body = bodies[index];
      return body.middle.clone().add(body.at).sub(body.home);
    },
    offset(index) { return bodies[index].at.clone().sub(bodies[index].home); },
  };
}
