// The unit cut open by a plane; what is cut is filled and hatched, each piece in its own colour.
// For each piece the stencil counts the surfaces behind the plane: where more backs than fronts
// are seen, the plane is inside the piece.

function hatching(isLeaning) {
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
    pen.moveTo(start, isLeaning ? side : 0);
    pen.lineTo(start + side, isLeaning ? 0 : side);
  }
  pen.stroke();
  const texture = new THREE.CanvasTexture(canvas);
  texture.wrapS = THREE.RepeatWrapping;
  texture.wrapT = THREE.RepeatWrapping;
  texture.encoding = THREE.sRGBEncoding;
  texture.anisotropy = 4;
  return texture;
}

function startSection(scene, bodies, outline, renderer) {
  const plane = new THREE.Plane(new THREE.Vector3(0, 0, -1), 0);
  const span = outline.high.map((high, axis) => high - outline.low[axis]);
  const reach = 4 * Math.max(...span) / 1000;
  const hatches = [hatching(false), hatching(true)];
  for (const hatch of hatches) hatch.repeat.set(reach * 70, reach * 70);
  const square = new THREE.PlaneGeometry(reach, reach);
  const turn = new THREE.Quaternion();
  const counting = new THREE.MeshBasicMaterial({
    depthWrite: false, depthTest: false, colorWrite: false, clippingPlanes: [plane],
    stencilWrite: true, stencilFunc: THREE.AlwaysStencilFunc,
  });
  const count = (side, step) => Object.assign(counting.clone(), {
    side, stencilFail: step, stencilZFail: step, stencilZPass: step, clippingPlanes: [plane],
  });
  const backs = count(THREE.BackSide, THREE.IncrementWrapStencilOp);
  const fronts = count(THREE.FrontSide, THREE.DecrementWrapStencilOp);

  const cuts = bodies.map((body, index) => {
    const counts = [backs, fronts].map((material) => {
      const mesh = new THREE.Mesh(body.mesh.geometry, material);
      mesh.raycast = () => {};
      mesh.renderOrder = 2 * index + 1;
      mesh.visible = false;
      body.mesh.add(mesh);
      return mesh;
    });
    const cap = new THREE.Mesh(square, new THREE.MeshBasicMaterial({
      color: body.colour, map: hatches[index % 2], side: THREE.DoubleSide, stencilWrite: true,
      stencilRef: 0, stencilFunc: THREE.NotEqualStencilFunc, stencilFail: THREE.ReplaceStencilOp,
      stencilZFail: THREE.ReplaceStencilOp, stencilZPass: THREE.ReplaceStencilOp,
    }));
    cap.renderOrder = 2 * index + 2;
    cap.visible = false;
    cap.onAfterRender = () => renderer.clearStencil();
    scene.add(cap);
    body.mesh.renderOrder = 2 * bodies.length + 3;
    body.outline.renderOrder = 2 * bodies.length + 4;
    return { counts, cap };
  });
  let current = null;

  function show() {
    const box = new THREE.Box3();
    cuts.forEach(({ counts, cap }, index) => {
      const body = bodies[index];
      let isCut = false;
      if (current !== null && body.mesh.visible) {
        const { geometry } = body.mesh;
        box.copy(geometry.boundingBox).applyMatrix4(body.mesh.matrixWorld);
        isCut = box.intersectsPlane(plane);
      }
      counts[0].visible = isCut;
      counts[1].visible = isCut;
      cap.visible = isCut;
      if (isCut) {
        plane.coplanarPoint(cap.position);
        cap.quaternion.copy(turn);
      }
    });
  }

  return {
    // Which part of the travel along the axis is cut away, 0 to 1; axis null for the whole unit.
    cut(axis, share) {
      current = axis;
      const planes = axis === null ? [] : [plane];
      for (const body of bodies) {
        body.mesh.material.clippingPlanes = planes;
        body.outline.material.clippingPlanes = planes;
      }
      if (axis === null) return 0;
      const fromTop = axis === 2;
      const away = share * span[axis];
      const place = (fromTop ? outline.high[2] - away : outline.low[axis] + away) / 1000;
      // Unit X, Y, Z are X, -Z, Y of the model.
      if (axis === 0) plane.set(new THREE.Vector3(1, 0, 0), -place);
      if (axis === 1) plane.set(new THREE.Vector3(0, 0, -1), -place);
      if (axis === 2) plane.set(new THREE.Vector3(0, -1, 0), place);
      turn.setFromUnitVectors(new THREE.Vector3(0, 0, 1), plane.normal);
      return away;
    },
    isCutAway(point) {
      return current !== null && plane.distanceToPoint(point) < 0;
    },
    show,
  };
}
