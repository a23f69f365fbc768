// The form in the round: turned, brought near, cut open, taken apart. Drawn only when something has changed.
import {
  AlwaysStencilFunc, BackSide, Box3, BufferAttribute, BufferGeometry, CanvasTexture, Color, DecrementWrapStencilOp, DirectionalLight, DoubleSide, FrontSide, Group, HemisphereLight,
  IncrementWrapStencilOp, LineBasicMaterial, LineSegments, Mesh, MeshBasicMaterial, MeshLambertMaterial, NotEqualStencilFunc, PerspectiveCamera, Plane,
  PlaneGeometry, RepeatWrapping, ReplaceStencilOp, Scene, Spherical, Vector3, WebGLRenderer,
} from 'three';
import {OrbitControls} from 'three/addons/controls/OrbitControls.js';
import {meshOf, shade} from '../core/crease.js';

const wood = ['#dfd0ab', '#cbd2bf', '#d9c4b2', '#c6cfd3', '#d6d0c4', '#cfc3c8', '#c8cdb4', '#e2d9bd', '#c0c9c4'];
const farAway = 3.05;  // distance of the eye, in radii of the form's sphere
const views = {slant: [35, 62], front: [0, 88], above: [0, 1], below: [0, 150]};

export class FormView {
  #bodies = new Group();
  #section = null;    // where the knife stands, -1 .. 1, or null
  #apart = 0;
  #radius = 150;
  #centre = new Vector3(0, 0, 50);
  #parts = [];
  #due = false;
  #hasLooked = false;
  #skins = [];
  #next = null;

  /** Throws where the browser gives no WebGL. */
  constructor(canvas) {
    this.canvas = canvas;
    // Asked for here, so that a browser without it is no error; kept after drawing, so that it can be printed.
    const context = canvas.getContext('webgl2', {antialias: true, alpha: true, stencil: true, preserveDrawingBuffer: true});
    if (!context) throw new Error('no WebGL');
    this.renderer = new WebGLRenderer({canvas, context, antialias: true, alpha: true, stencil: true, preserveDrawingBuffer: true});
    this.renderer.localClippingEnabled = true;
    this.renderer.debug.checkShaderErrors = false;
    this.renderer.setPixelRatio(Math.min(2, window.devicePixelRatio || 1));
    this.scene = new Scene();
    this.camera = new PerspectiveCamera(26, 1, 1, 10000);
    this.camera.up.set(0, 0, 1);
    this.#light();
    this.scene.add(this.#bodies, this.camera);
    this.#inks();
    this.knife = new Plane(new Vector3(0, 1, 0), 0);
    this.cap = this.#makeCap();
    this.scene.add(this.cap);
    this.controls = new OrbitControls(this.camera, canvas);
    this.controls.enableDamping = false;
    this.controls.zoomSpeed = 0.8;
    this.controls.addEventListener('change', () => this.draw());
    new ResizeObserver(() => this.#resize()).observe(canvas.parentElement);
    canvas.addEventListener('webglcontextrestored', () => this.draw());
    this.look('slant');
  }

  #light() {
    const key = new DirectionalLight('#fffaf0', 1.9);
    key.position.set(-1.2, 1.6, 1.4);
    this.camera.add(key, key.target);
    key.target.position.set(0, 0, -1);
    this.scene.add(new HemisphereLight('#ffffff', '#b9b3a6', 1.75));
    this.scene.children.at(-1).position.set(0, 0, 1);
  }

  // Made once: new ones for every picture would be compiled anew.
  #inks() {
    this.#skins = wood.map((colour) => new MeshLambertMaterial({color: new Color(colour), side: FrontSide, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1}));
    this.line = new LineBasicMaterial({color: '#3a3f3c', transparent: true, opacity: 0.55});
    this.counters = [[BackSide, IncrementWrapStencilOp], [FrontSide, DecrementWrapStencilOp]].map(([side, operation]) => new MeshBasicMaterial({side, depthWrite: false, depthTest: false, colorWrite: false,
      stencilWrite: true, stencilFunc: AlwaysStencilFunc, stencilFail: operation, stencilZFail: operation, stencilZPass: operation}));
  }

  #makeCap() {
    const material = new MeshBasicMaterial({color: '#ffffff', map: hatch(), side: DoubleSide, stencilWrite: true, stencilRef: 0, stencilFunc: NotEqualStencilFunc,
      stencilFail: ReplaceStencilOp, stencilZFail: ReplaceStencilOp, stencilZPass: ReplaceStencilOp});
    const cap = new Mesh(new PlaneGeometry(1, 1), material);
    cap.renderOrder = 2;
    cap.visible = false;
    cap.rotation.x = Math.PI / 2;
    cap.onAfterRender = (renderer) => renderer.clearStencil();
    return cap;
  }

  /** Shows one mesh, or parts with the way out of each. `answer` is the core's. */
  show(answer) {
    this.#next = answer;
    this.draw();
  }

  // Of several answers between two frames only the last is worth the work.
  #build(answer) {
    const list = answer.parts?.length ? answer.parts : answer.mesh ? [answer.mesh] : [];
    this.#clear();
    const steps = Math.max(1, ...list.map((part) => part.step ?? 1));
    this.#parts = list.map((part, i) => {
      const body = this.#bodyOf(part, i);
      this.#bodies.add(body);
      return {body, out: new Vector3(...(part.out ?? [0, 0, 0])), step: part.step ?? 1, steps};
    });
    this.#measure();
    this.#place();
    this.#follow(false);
  }

  #clear() {
    this.#bodies.traverse((one) => one.geometry?.dispose());
    this.#bodies.clear();
    this.#parts = [];
  }

  #bodyOf(part, number) {
    const mesh = meshOf(part), {positions, normals, creases} = shade(mesh.positions, mesh.indices);
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(positions, 3));
    geometry.setAttribute('normal', new BufferAttribute(normals, 3));
    const skin = new Mesh(geometry, this.#skins[number % this.#skins.length]);
    const edge = new BufferGeometry();
    edge.setAttribute('position', new BufferAttribute(creases, 3));
    const body = new Group();
    skin.renderOrder = 3;
    const lines = new LineSegments(edge, this.line);
    lines.renderOrder = 4;
    body.add(skin, lines, ...this.counters.map((ink) => counterOf(geometry, ink)));
    return body;
  }

  // The sphere round all that stands on the table, parts where they are.
  #measure() {
    const all = new Box3(), own = new Box3();
    let reach = 1;
    for (const {body} of this.#parts) {
      const geometry = body.children[0].geometry;
      if (!geometry.boundingBox) geometry.computeBoundingBox();
      own.copy(geometry.boundingBox);
      reach = Math.max(reach, -own.min.x, own.max.x, -own.min.y, own.max.y);
      all.union(own.translate(body.position));
    }
    this.reach = reach;
    return all;
  }

  // Brings the eye to where all is seen, unless it would move by little only: a form that grows is to be seen growing.
  #follow(always) {
    if (this.#parts.length === 0) return;
    const all = this.#measure(), size = all.getSize(new Vector3()), centre = all.getCenter(new Vector3());
    const radius = Math.hypot(size.x, size.y, size.z) / 2 * 0.86;
    if (!always && this.#hasLooked && Math.abs(radius - this.#radius) < this.#radius * 0.25) return;
    const away = this.camera.position.clone().sub(this.controls.target).multiplyScalar(radius / this.#radius);
    this.#radius = radius;
    this.#centre.copy(centre);
    this.#hasLooked = true;
    this.controls.target.copy(centre);
    this.camera.position.copy(centre).add(away);
    this.controls.update();
    this.cap.scale.set(radius * 8, radius * 8, 1);
    this.cap.material.map.repeat.set(radius * 8 / 9, radius * 8 / 9);
  }

  #place() {
    for (const {body, out, step, steps} of this.#parts) {
      const share = Math.min(1, Math.max(0, this.#apart * steps - (step - 1)));
      body.position.copy(out).multiplyScalar(share * this.reach * 0.6);
    }
    const open = this.#section !== null;
    this.knife.constant = open ? -this.#section * this.reach : 0;
    this.cap.visible = open;
    this.cap.position.set(0, open ? this.#section * this.reach : 0, 0);
    for (const ink of [...this.#skins, this.line, ...this.counters]) ink.clippingPlanes = open ? [this.knife] : null;
    this.#bodies.traverse((one) => { if (one.userData.counts) one.visible = open; });
  }

  /** Cuts the form open at that share of its radius, -1 (nearest) to 1, or closes it (null). */
  cut(at) {
    this.#section = at;
    this.#place();
    this.draw();
  }

  /** 0: together; 1: all apart, each in its turn. */
  takeApart(share) {
    this.#apart = share;
    this.#place();
    this.#follow(true);
    this.draw();
  }

  /** 'slant', 'front', 'above' or 'below'. */
  look(name) {
    const [round, down] = views[name].map((degrees) => degrees * Math.PI / 180);
    const far = this.#radius * farAway * Math.max(1, 1.25 / (this.camera.aspect || 1));
    const flat = far * Math.sin(down);
    this.controls.target.copy(this.#centre);
    this.camera.position.set(flat * Math.sin(round), -flat * Math.cos(round), far * Math.cos(down)).add(this.#centre);
    this.controls.update();
    this.draw();
  }

  /** Turns by degrees: round the axis, and up or down. */
  turn(round, up) {
    const away = this.camera.position.clone().sub(this.controls.target);
    const ball = new Spherical().setFromVector3(new Vector3(away.x, away.z, -away.y));
    ball.theta += round * Math.PI / 180;
    ball.phi = Math.min(Math.PI - 0.02, Math.max(0.02, ball.phi - up * Math.PI / 180));
    const turned = new Vector3().setFromSpherical(ball);
    this.camera.position.set(turned.x, -turned.z, turned.y).add(this.controls.target);
    this.controls.update();
    this.draw();
  }

  near(factor) {
    const away = this.camera.position.clone().sub(this.controls.target);
    const far = Math.min(this.#radius * 12, Math.max(this.#radius * 0.6, away.length() * factor));
    this.camera.position.copy(away.setLength(far)).add(this.controls.target);
    this.controls.update();
    this.draw();
  }

  #resize() {
    const {clientWidth: width, clientHeight: height} = this.canvas.parentElement;
    if (width === 0 || height === 0) return;
    this.camera.aspect = width / height;
    this.camera.updateProjectionMatrix();
    this.renderer.setSize(width, height, false);
    this.#render();
  }

  draw() {
    if (this.#due) return;
    this.#due = true;
    requestAnimationFrame(() => this.#render());
  }

  #render() {
    if (this.#next) this.#build(this.#next);
    this.#next = null;
    this.#due = false;
    this.renderer.render(this.scene, this.camera);
  }
}

// Back faces count up and front faces down; where the count is not level the knife is inside the form, and the cap is drawn.
function counterOf(geometry, ink) {
  const mesh = new Mesh(geometry, ink);
  mesh.renderOrder = 1;
  mesh.userData.counts = true;
  return mesh;
}

// Ink lines at a slant, as cut faces are drawn on paper.
function hatch() {
  const canvas = document.createElement('canvas');
  canvas.width = canvas.height = 64;
  const pen = canvas.getContext('2d');
  pen.fillStyle = '#f3e7e2';
  pen.fillRect(0, 0, 64, 64);
  pen.strokeStyle = '#8a2f3c';
  pen.lineWidth = 5;
  pen.lineCap = 'square';
  for (const shift of [-64, 0, 64]) {
    pen.beginPath();
    pen.moveTo(shift, 64);
    pen.lineTo(shift + 64, 0);
    pen.stroke();
  }
  const texture = new CanvasTexture(canvas);
  texture.wrapS = texture.wrapT = RepeatWrapping;
  texture.anisotropy = 4;
  return texture;
}
