// All pieces of one shape are drawn in one call, since a call costs more than what it draws.
// What is too small to be seen is left out: a piece, a face, a line; and a piece of which nothing
// but its box would be seen is drawn as its box.

const EDGE_COLOUR = new THREE.Color(0x2a2520).convertSRGBToLinear();
const CHOSEN_COLOUR = new THREE.Color(0x2f9dbb).convertSRGBToLinear();
const CHOSEN_EDGE = new THREE.Color(0x063a4a).convertSRGBToLinear();
// Of what a picture may be off: across a piece, a face or along a line, to be seen at all; and
// across a box to be given lines, since nearer to each other they are but a blot.
const LEAST_SEEN = 0.7;
const LEAST_LINED = 4;

function startCrowd({ root, bodies, shapes }) {
  const looks = [lookOf(1, 1), lookOf(0.07, 0.25)];
  const number = new Map(shapes.map((shape, which) => [shape, which]));
  const most = shapes.map(() => 0);
  for (const body of bodies) most[number.get(body.shape)] += 1;
  // For each look: the groups by their shapes, made when they are first wanted, and the boxes.
  const groups = looks.map(() => shapes.map(() => null));
  const boxes = looks.map(() => null);
  const tints = bodies.map((body) => body.colour);
  const isFaint = bodies.map(() => false);
  let chosen = null, isStale = true;
  // What of each piece is drawn: nothing, its shape, its box, or that without lines; 3 more if faint.
  const [NOTHING, SHAPE, BOX, BARE, FAINT] = [0, 1, 2, 3, 3];
  let drawn = new Uint8Array(bodies.length);
  let wanted = new Uint8Array(bodies.length);
  const nearest = groups.map((some) => new Float32Array(some.length)); // pixels to a metre
  const view = new THREE.Frustum(), eye = new THREE.Vector3(), matrix = new THREE.Matrix4();
  const ball = new THREE.Sphere();

  function groupOf(faint, which) {
    if (!groups[faint][which]) {
      groups[faint][which] = together(shapes[which], looks[faint].many, most[which]);
      root.add(groups[faint][which].faces, groups[faint][which].lines);
    }
    return groups[faint][which];
  }
  function boxesOf(faint) {
    boxes[faint] ??= startBoxes(root, looks[faint].one, bodies.length);
    return boxes[faint];
  }
  function want(camera, height, coarse) {
    matrix.copy(camera.matrixWorld).invert().premultiply(camera.projectionMatrix)
      .multiply(root.matrixWorld);
    view.setFromProjectionMatrix(matrix);
    root.worldToLocal(eye.setFromMatrixPosition(camera.matrixWorld));
    const pixels = height / 2 / Math.tan(THREE.MathUtils.degToRad(camera.fov / 2));
    for (const some of nearest) some.fill(0);
    bodies.forEach((body, index) => {
      wanted[index] = NOTHING;
      if (!body.isThere) return;
      ball.center.copy(body.middle).add(body.at).sub(body.home);
      ball.radius = body.radius;
      if (!view.intersectsSphere(ball)) return;
      const scale = pixels / Math.max(ball.center.distanceTo(eye) - body.radius, camera.near);
      if (2 * body.radius * scale < LEAST_SEEN * coarse && index !== chosen) return;
      const faint = isFaint[index] ? 1 : 0;
      wanted[index] = FAINT * faint + lookAt(body, scale, coarse);
      const which = number.get(body.shape);
      nearest[faint][which] = Math.max(nearest[faint][which], scale);
    });
  }
  function lookAt({ shape }, scale, coarse) {
    if (shape.lack * scale >= coarse) return SHAPE;
    return shape.breadth * scale < LEAST_LINED * coarse ? BARE : BOX;
  }
  function fill() {
    for (const group of groups.flat()) if (group) group.count = 0;
    for (const some of boxes) some?.clear();
    bodies.forEach((body, index) => {
      if (wanted[index] === NOTHING) return;
      const faint = wanted[index] > FAINT ? 1 : 0, how = wanted[index] - FAINT * faint;
      const edge = index === chosen ? CHOSEN_EDGE : EDGE_COLOUR;
      if (how === SHAPE) {
        matrix.copy(body.turn).setPosition(body.at);
        put(groupOf(faint, number.get(body.shape)), matrix, tints[index], edge);
      } else {
        boxesOf(faint).put(body, tints[index], edge, how === BOX);
      }
    });
    for (const group of groups.flat()) if (group) show(group);
    for (const some of boxes) some?.show();
  }

  return {
    // The pieces have other places, or are others.
    moved() { isStale = true; },
    paint(which, isFading) {
      chosen = which;
      bodies.forEach((body, index) => {
        isFaint[index] = isFading && chosen !== null && index !== chosen;
        tints[index] = body.colour;
      });
      if (chosen !== null) tints[chosen] = bodies[chosen].colour.clone().lerp(CHOSEN_COLOUR, 0.75);
      isStale = true;
    },
    // Make ready for a picture so many pixels high in which nothing is off by more than some.
    arrange(camera, height, coarse) {
      want(camera, height, coarse);
      if (isStale || wanted.some((one, index) => one !== drawn[index])) {
        isStale = false;
        fill();
        [drawn, wanted] = [wanted, drawn];
      }
      groups.forEach((some, faint) => some.forEach((group, which) => {
        if (group) thin(group, LEAST_SEEN * coarse / nearest[faint][which]);
      }));
    },
    // The colour in which a piece is cut open; null for one that lets others be seen.
    tint(index) { return isFaint[index] ? null : tints[index]; },
    clip(planes) {
      for (const material of looks.flatMap(materialsOf)) material.clippingPlanes = planes;
    },
    end() {
      for (const group of groups.flat()) if (group) end(group);
      for (const some of boxes) some?.end();
      for (const material of looks.flatMap(materialsOf)) material.dispose();
    },
  };
}

// How pieces look that are drawn many in a call, and those that are drawn as one.
function lookOf(opacity, lines) {
  const [many, one] = [{}, { vertexColors: true }].map((more) => {
    const common = { ...more, transparent: opacity < 1, depthWrite: opacity === 1 };
    return {
      faces: new THREE.MeshLambertMaterial({
        ...common, opacity, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1,
      }),
      lines: new THREE.LineBasicMaterial({ ...common, opacity: lines }),
    };
  });
  return { many, one };
}

function materialsOf({ many, one }) {
  return [many.faces, many.lines, one.faces, one.lines];
}

function together(shape, look, most) {
  const faces = new THREE.InstancedMesh(sameAs(shape.faces), look.faces, most);
  faces.instanceColor = new THREE.InstancedBufferAttribute(new Float32Array(3 * most), 3);
  const lines = new THREE.LineSegments(sameAs(shape.edges), look.lines);
  lines.isInstancedMesh = true; // what the engine asks about what it draws many times
  lines.instanceMatrix = faces.instanceMatrix;
  lines.instanceColor = new THREE.InstancedBufferAttribute(new Float32Array(3 * most), 3);
  for (const one of [faces, lines]) one.frustumCulled = false;
  return { faces, lines, shape, count: 0 };
}

// The engine keeps what goes with a geometry by the geometry: two groups must not share one.
function sameAs(geometry) {
  const same = new THREE.BufferGeometry();
  for (const [name, values] of Object.entries(geometry.attributes)) same.setAttribute(name, values);
  return same.setIndex(geometry.index);
}

function put(group, matrix, tint, edge) {
  const { faces, lines, count } = group;
  matrix.toArray(faces.instanceMatrix.array, 16 * count);
  tint.toArray(faces.instanceColor.array, 3 * count);
  edge.toArray(lines.instanceColor.array, 3 * count);
  group.count += 1;
}

function show({ faces, lines, count }) {
  for (const one of [faces, lines]) {
    one.count = count;
    one.visible = count > 0;
    one.instanceColor.needsUpdate = true;
  }
  faces.instanceMatrix.needsUpdate = true;
}

// Leave out what is smaller than this, metres.
function thin({ faces, lines, shape }, least) {
  faces.geometry.setDrawRange(0, 3 * countOf(shape.sizes, least));
  lines.geometry.setDrawRange(0, 2 * countOf(shape.lengths, least));
}

function end({ faces, lines }) {
  for (const one of [faces, lines]) {
    one.dispatchEvent({ type: "dispose" });
    one.geometry.dispose();
  }
}
