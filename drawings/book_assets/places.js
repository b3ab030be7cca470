// Where each piece is: its own place, plus its moves, plus the spread. Millimetres of the unit.

const SPREAD = [0.55, 1.3, 0.7]; // a cabinet is shallow, so it is drawn apart furthest in depth

function startPlaces(bodies, moves, outline) {
  const middle = outline.low.map((low, axis) => (low + outline.high[axis]) / 2000);
  const travels = moves.map(() => 0);
  let spread = 0;

  function place() {
    bodies.forEach((body, index) => {
      const { position } = body.mesh;
      position.copy(body.home);
      for (let axis = 0; axis < 3; axis += 1) {
        let by = spread * SPREAD[axis] * (body.middle.getComponent(axis) - middle[axis]);
        moves.forEach((move, which) => {
          if (move.members.has(index)) by += travels[which] * move.direction[axis] / 1000;
        });
        position.setComponent(axis, position.getComponent(axis) + by);
      }
    });
  }

  return {
    travel(which, distance) { travels[which] = distance; place(); },
    spread(share) { spread = share; place(); },
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
