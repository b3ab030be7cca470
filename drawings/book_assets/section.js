// The unit cut open by a plane; what is cut is filled and hatched, each piece in its own colour.

const HATCH = 70; // lines to a metre

function hatching() {
  const side = 64;
  const canvas = document.createElement("canvas");
  canvas.width = side;
  canvas.height = side;
  const pen = canvas.getContext("2d");
  pen.fillStyle = "#fff";
  pen.fillRect(0, 0, side, side);
  pen.strokeStyle = "#6b6259";
  pen.lineWidth = 7;
  for (const start of [-side, 0, side]) {
    pen.moveTo(start, 0);
    pen.lineTo(start + side, side);
  }
  pen.stroke();
  const texture = new THREE.CanvasTexture(canvas);
  texture.wrapS = THREE.RepeatWrapping;
  texture.wrapT = THREE.RepeatWrapping;
  texture.encoding = THREE.sRGBEncoding;
  texture.anisotropy = 4;
  return texture;
}

function startSection({ root, bodies }, outline, crowd) {
  const plane = new THREE.Plane(new THREE.Vector3(0, 0, -1), 0);
  const span = outline.high.map((high, axis) => high - outline.low[axis]);
  const caps = new THREE.Mesh(new THREE.BufferGeometry(), new THREE.MeshBasicMaterial({
    vertexColors: true, side: THREE.DoubleSide,
  }));
  const rims = new THREE.LineSegments(
    new THREE.BufferGeometry(), new THREE.LineBasicMaterial({ color: EDGE_COLOUR }),
  );
  for (const one of [caps, rims]) {
    one.frustumCulled = false;
    one.visible = false;
    root.add(one);
  }
  let axis = null; // of the unit, across which it is cut
  let place = 0, isStale = false;
  const known = new Map(); // what is cut of equal pieces in equal places

  // What a plane across an axis of the unit cuts of a piece, in the piece's own frame.
  function cutOf(body) {
    const normal = new THREE.Vector3().setComponent(axis, 1)
      .applyMatrix4(body.turn.clone().transpose());
    const off = body.at.getComponent(axis) - place;
    const key = `${normal.toArray().map((one) => one.toFixed(6))} ${off.toFixed(7)}`;
    if (!known.has(body.shape)) known.set(body.shape, new Map());
    const cuts = known.get(body.shape);
    if (!cuts.has(key)) cuts.set(key, cutThrough(body.shape, normal, off));
    return cuts.get(key);
  }
  function fill() {
    const places = [], colours = [], hatches = [], lines = [];
    const point = new THREE.Vector3(), matrix = new THREE.Matrix4();
    const [across, along] = [0, 1, 2].filter((one) => one !== axis);
    known.clear();
    bodies.forEach((body, index) => {
      const tint = crowd.tint(index);
      if (!body.isThere || tint === null) return;
      const middle = body.middle.getComponent(axis) + body.at.getComponent(axis)
        - body.home.getComponent(axis);
      if (Math.abs(middle - place) > body.radius) return;
      const { caps: corners, rims: ends } = cutOf(body);
      matrix.copy(body.turn).setPosition(body.at);
      const lean = index % 2 ? 1 : -1; // pieces beside each other are hatched both ways
      for (const corner of corners) {
        point.copy(corner).applyMatrix4(matrix).setComponent(axis, place);
        places.push(point.x, point.y, point.z);
        colours.push(tint.r, tint.g, tint.b);
        hatches.push(lean * HATCH * point.getComponent(across), HATCH * point.getComponent(along));
      }
      for (const end of ends) {
        point.copy(end).applyMatrix4(matrix).setComponent(axis, place);
        lines.push(point.x, point.y, point.z);
      }
    });
    give(caps, { position: [places, 3], color: [colours, 3], uv: [hatches, 2] });
    give(rims, { position: [lines, 3] });
  }

  return {
    // Which part of the travel along the axis is cut away, 0 to 1; axis null for the whole unit.
    cut(which, share) {
      axis = which;
      isStale = true;
      crowd.clip(axis === null ? [] : [plane]);
      if (axis === null) return 0;
      const isFromTop = axis === 2, away = share * span[axis];
      place = (isFromTop ? outline.high[2] - away : outline.low[axis] + away) / 1000;
      plane.normal.set(0, 0, 0).setComponent(axis, isFromTop ? -1 : 1);
      plane.constant = isFromTop ? place : -place;
      plane.applyMatrix4(root.matrixWorld);
      return away;
    },
    isCutAway(point) { return axis !== null && plane.distanceToPoint(point) < 0; },
    moved() { isStale = true; },
    settle() {
      if (!isStale) return;
      isStale = false;
      caps.visible = axis !== null;
      rims.visible = axis !== null;
      if (axis === null) return;
      caps.material.map ??= hatching();
      fill();
    },
    end() {
      for (const one of [caps, rims]) {
        one.geometry.dispose();
        one.material.map?.dispose();
        one.material.dispose();
      }
    },
  };
}

function give(drawn, attributes) {
  drawn.geometry.dispose();
  drawn.geometry = new THREE.BufferGeometry();
  for (const [name, [values, size]] of Object.entries(attributes)) {
    drawn.geometry.setAttribute(name, new THREE.Float32BufferAttribute(values, size));
  }
}

// Where a plane, normal · p + off = 0, cuts a closed mesh: triangles and the lines round them.
// A corner is on one side or the other, never between, so every line closes.
function cutThrough({ corners, triangles }, normal, off) {
  const count = corners.length / 3, heights = new Float64Array(count);
  for (let i = 0; i < count; i += 1) {
    heights[i] = normal.x * corners[3 * i] + normal.y * corners[3 * i + 1]
      + normal.z * corners[3 * i + 2] + off;
  }
  const next = new Map();
  const crossing = (from, to) => Math.min(from, to) * count + Math.max(from, to);
  for (let i = 0; i < triangles.length; i += 3) {
    let down = null, up = null;
    for (let k = 0; k < 3; k += 1) {
      const from = triangles[i + k], to = triangles[i + ((k + 1) % 3)];
      if (heights[from] >= 0 && heights[to] < 0) down = crossing(from, to);
      if (heights[from] < 0 && heights[to] >= 0) up = crossing(from, to);
    }
    if (down !== null) next.set(down, up);
  }
  const pointAt = (key) => {
    const one = Math.floor(key / count), other = key % count;
    const share = heights[one] / (heights[one] - heights[other]);
    return new THREE.Vector3().fromArray(corners, 3 * one)
      .lerp(new THREE.Vector3().fromArray(corners, 3 * other), share);
  };
  const loops = [];
  for (const start of [...next.keys()]) {
    if (!next.has(start)) continue;
    const loop = [];
    for (let key = start; next.has(key);) {
      loop.push(pointAt(key));
      const to = next.get(key);
      next.delete(key);
      key = to;
    }
    if (loop.length > 2) loops.push(loop);
  }
  const rims = loops.flatMap((loop) => loop.flatMap((point, i) => [point, loop[(i + 1) % loop.length]]));
  return { caps: filled(loops, normal), rims };
}

// Triangles that fill loops, of which some are holes in others.
function filled(loops, normal) {
  const along = new THREE.Vector3(normal.y, normal.z, normal.x).cross(normal).normalize();
  const up = normal.clone().cross(along);
  const flat = loops.map((points) => {
    const outline = points.map((one) => new THREE.Vector2(one.dot(along), one.dot(up)));
    return { points, outline, area: THREE.ShapeUtils.area(outline), holes: [] };
  }).sort((one, other) => Math.abs(other.area) - Math.abs(one.area));
  // The largest is no hole, and what runs round the other way is one.
  const solid = flat.filter((one) => one.area * flat[0].area > 0);
  const smallestFirst = [...solid].reverse();
  for (const hole of flat.filter((one) => one.area * flat[0].area < 0)) {
    smallestFirst.find((one) => isWithin(hole.outline[0], one.outline))?.holes.push(hole);
  }
  return solid.flatMap(({ points, outline, holes }) => {
    const all = [points, ...holes.map((hole) => hole.points)].flat();
    const found = THREE.ShapeUtils.triangulateShape(outline, holes.map((hole) => hole.outline));
    return found.flatMap((corners) => corners.map((one) => all[one]));
  });
}

function isWithin(point, outline) {
  let isIn = false;
  outline.forEach((one, index) => {
    const other = outline[(index + 1) % outline.length];
    const isBeside = (one.y > point.y) !== (other.y > point.y);
    const x = one.x + (other.x - one.x) * (point.y - one.y) / (other.y - one.y);
    if (isBeside && point.x < x) isIn = !isIn;
  });
  return isIn;
}
