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

  // What is left of each step's way, 0 to 1. A later step may move what stands already.
  function place() {
    const left = steps.map((step, which) => Math.min(Math.max(1 - (built - which), 0), 1));
    bodies.forEach((body, index) => {
      const { position } = body.mesh;
      body.mesh.visible = brought[index] === null || built > brought[index];
      position.copy(body.home);
      for (let axis = 0; axis < 3; axis += 1) {
        let by = spread * SPREAD[axis] * (body.middle.getComponent(axis) - middle[axis]);
        moves.forEach((move, which) => {
          if (move.members.has(index)) by += travels[which] * move.direction[axis] / 1000;
        });
        steps.forEach((step, which) => {
          const isOnItsWay = built > which && left[which] > 0 && step.members.has(index);
          if (isOnItsWay) by -= left[which] * Math.min(step.travel / 1000, SHORT) * step.direction[axis];
        });
        position.setComponent(axis, position.getComponent(axis) + by);
      }
    });
  }

  return {
    travel(which, distance) { travels[which] = distance; place(); },
    spread(share) { spread = share; place(); },
    build(count) { built = count; place(); },
    // The middle of a piece where it is now, in the frame of the model's root, metres.
    middle(index) {
      const body = bodies[index];
      return body.middle.clone().add(body.mesh.position).sub(body.home);
    },
    offset(index) {
      return bodies[index].mesh.position.clone().sub(bodies[index].home);
    },
  };
}
