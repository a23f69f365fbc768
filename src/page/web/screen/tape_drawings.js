// The small drawings: what a value measures, and how tape, ruler or eye is held. Box 120 x 80, ink on paper, tape yellow, the measured
// length in the red of basting thread.

const arrowhead = (x, y, dx, dy) => {
  const long = Math.hypot(dx, dy), ux = dx / long, uy = dy / long, s = 5, w = 2;
  return `<path class="d-tip" d="M${x} ${y}L${(x - s * ux + w * uy).toFixed(1)} ${(y - s * uy - w * ux).toFixed(1)}L${(x - s * ux - w * uy).toFixed(1)} ${(y - s * uy + w * ux).toFixed(1)}Z"/>`;
};
const dim = (x1, y1, x2, y2) => `<path class="d-dim" d="M${x1} ${y1}L${x2} ${y2}"/>${arrowhead(x1, y1, x1 - x2, y1 - y2)}${arrowhead(x2, y2, x2 - x1, y2 - y1)}`;
const ink = (d) => `<path class="d-ink" d="${d}"/>`;
const thin = (d) => `<path class="d-thin" d="${d}"/>`;
const dash = (d) => `<path class="d-dash" d="${d}"/>`;
const cloth = (d) => `<path class="d-cloth" d="${d}"/>`;
const solid = (d) => `<path class="d-solid" d="${d}"/>`;
const tape = (d) => `<path class="d-tape-edge" d="${d}"/><path class="d-tape" d="${d}"/>`;
const red = (d) => `<path class="d-red" d="${d}"/>`;
const words = (x, y, text) => `<text class="d-word" x="${x}" y="${y}">${text}</text>`;

function ruler(x1, y1, x2, y2, depth) {
  const long = Math.hypot(x2 - x1, y2 - y1), ux = (x2 - x1) / long, uy = (y2 - y1) / long, nx = -uy * depth, ny = ux * depth;
  let ticks = '';
  for (let s = 4; s < long; s += 4) {
    const t = s % 20 === 0 ? 0.7 : 0.4;
    ticks += `M${(x1 + ux * s).toFixed(1)} ${(y1 + uy * s).toFixed(1)}l${(nx * t).toFixed(1)} ${(ny * t).toFixed(1)}`;
  }
  return `<path class="d-tape-body" d="M${x1} ${y1}L${x2} ${y2}l${nx} ${ny}L${(x1 + nx).toFixed(1)} ${(y1 + ny).toFixed(1)}Z"/>${thin(ticks)}`;
}

const crown = 'M60 18C36 18 18 22 17 33C16 43 36 46 41 56H79C84 46 104 43 103 33C102 22 84 18 60 18Z';
const blockSection = 'M60 16C38 16 20 18 19 28C18 38 36 42 40 50V66H80V50C84 42 102 38 101 28C100 18 82 16 60 16Z';
const blockWall = 'M60 16C38 16 20 18 19 28C18 38 36 42 40 50V66H46V48C42 39 26 36 26 29C27 23 40 22 60 22C80 22 93 23 94 29C94 36 78 39 74 48V66H80V50C84 42 102 38 101 28C100 18 82 16 60 16Z';
const panelShape = 'M60 8C66 20 84 42 84 52C84 60 76 66 74 74H46C44 66 36 60 36 52C36 42 54 20 60 8Z';
const head = 'M44 70C45 62 38 60 34 58C32 54 34 51 32 48C28 47 27 45 30 41C31 38 32 34 32 31C33 17 45 9 60 9C77 9 89 20 89 36C89 48 82 53 82 62C82 66 84 69 86 72';

const drawings = {
  'measure.head_girth': ink(head) + tape('M31 33Q60 25 89 38') + thin('M60 40c5-3 8 3 5 8') + red('M31 37Q60 29 89 42'),
  'measure.hat_size': cloth('M30 44C30 20 90 20 90 44V56H30Z') + ink('M12 56H108M30 56V44C30 20 90 20 90 44V56') + `<rect class="d-label" x="46" y="38" width="28" height="14" rx="2"/>` + words(60, 48.5, '57'),
  'measure.crown_diameter': cloth('M60 10a29 29 0 0 1 0 58a29 29 0 0 1 0-58Z') + thin('M60 10V68M31 39H89M39.5 18.5L80.5 59.5M80.5 18.5L39.5 59.5') + ruler(22, 39, 98, 39, 7) + dim(31, 74, 89, 74) + dash('M31 39V76M89 39V76'),
  'measure.rise': cloth(crown) + red('M38 56H82') + ruler(104, 62, 104, 6, -8) + ruler(40, 18, 104, 18, -5) + dim(24, 56, 24, 18) + dash('M20 18H40M20 56H40'),
  'measure.taken_at': cloth('M10 34Q60 18 110 34V46Q60 30 10 46Z') + solid('M10 48Q60 32 110 48V70H10Z') + red('M10 32Q60 16 110 32') + dash('M10 40Q60 24 110 40') + words(60, 62, 'form'),
  'measure.before_steam': cloth(crown) + thin('M44 8q4-3 0-6M60 8q4-3 0-6M76 8q4-3 0-6') + dash('M60 26C42 26 28 28 27 34C27 41 40 42 45 54') + dim(38, 66, 24, 66),
  'panel_lengths.top': cloth(panelShape) + dash('M60 8V74') + thin('M36 52H84') + dim(60, 9, 60, 52) + words(98, 34, 'top'),
  'panel_lengths.under': cloth(panelShape) + dash('M60 8V52') + thin('M36 52H84') + dim(60, 53, 60, 74) + words(101, 68, 'under'),
  'pattern.stations': cloth(panelShape) + ruler(60, 8, 60, 76, -5) + dim(47.5, 30, 72.5, 30) + dim(40, 42, 80, 42) + dim(36, 53, 84, 53),
  'pattern.file': `<path class="d-label" d="M30 6H74L90 22V76H30Z"/>` + thin('M74 6V22H90') + `<g transform="translate(24 18) scale(0.6)">${cloth(panelShape)}</g>`,
  'pattern.panels': cloth('M60 10a29 29 0 0 1 0 58a29 29 0 0 1 0-58Z') + thin('M60 10V68M31 39H89M39.5 18.5L80.5 59.5M80.5 18.5L39.5 59.5') + red('M60 39L60 10A29 29 0 0 1 80.5 18.5Z'),
  'pattern.seam_allowance': cloth(panelShape) + `<g transform="translate(9 8) scale(0.85)">${dash(panelShape)}</g>` + dim(84, 52, 78, 52),
  'pattern.includes_allowance': cloth(panelShape) + `<g transform="translate(9 8) scale(0.85)">${dash(panelShape)}</g>` + words(20, 24, 'cut') + thin('M28 26L50 28') + words(100, 70, 'sew') + thin('M90 66L80 58'),
  'pattern.fold': cloth('M60 8C66 20 84 42 84 52C84 60 76 66 74 74H60Z') + red('M60 4V78') + words(38, 44, 'fold'),
  'pattern.length_along': cloth(panelShape) + red('M60 8C66 20 84 42 84 52C84 60 76 66 74 74') + dash('M60 8V74'),
  'pattern.seam_tape': cloth('M14 20H106V60H14Z') + red('M60 20V60') + `<path class="d-tape-body" d="M53 20H67V60H53Z"/>` + dim(53, 68, 67, 68),
  'pattern.top_diameter': cloth('M60 8a30 30 0 0 1 0 60a30 30 0 0 1 0-60Z') + dim(30, 38, 90, 38),
  'pattern.ring_diameter': `<path class="d-cloth" fill-rule="evenodd" d="M60 8a30 30 0 0 1 0 60a30 30 0 0 1 0-60ZM60 23a15 15 0 0 0 0 30a15 15 0 0 0 0-30Z"/>` + dim(30, 74, 90, 74) + dash('M30 38V76M90 38V76'),
  'pattern.ring_opening': `<path class="d-cloth" fill-rule="evenodd" d="M60 8a30 30 0 0 1 0 60a30 30 0 0 1 0-60ZM60 23a15 15 0 0 0 0 30a15 15 0 0 0 0-30Z"/>` + dim(45, 38, 75, 38),
  'shape.profile': ink('M10 30C10 16 52 14 60 14M10 30C10 40 30 42 34 54') + dash('M110 24C110 18 90 18 60 18M110 24C110 34 90 40 86 54'),
  'shape.dome': ink('M14 40C14 30 36 20 60 20S106 30 106 40C106 52 88 54 84 64M14 40C14 52 32 54 36 64') + ruler(20, 20, 100, 20, -6) + dim(28, 20, 28, 30) + dash('M22 30H60'),
  'shape.edge_radius': ink('M100 12C52 12 26 14 26 38C26 58 48 58 58 70') + `<circle class="d-red" cx="47" cy="36" r="21"/>` + dim(47, 36, 29, 26) + words(78, 42, 'coin'),
  'shape.under_edge_radius': ink('M100 10C52 10 24 12 24 34C24 56 48 58 60 72') + `<circle class="d-red" cx="44" cy="38" r="20"/>` + dim(44, 38, 30, 52),
  'cloth.name': cloth('M16 22Q40 12 60 22T104 22V62Q80 72 60 62T16 62Z') + thin('M16 32Q40 22 60 32T104 32M16 42Q40 32 60 42T104 42M16 52Q40 42 60 52T104 52'),
  'cloth.thickness': Array.from({length: 10}, (_, i) => `<path class="d-layer" d="M18 ${68 - 3.5 * i}H92"/>`).join('') + `<rect class="d-label" x="24" y="18" width="62" height="15" rx="2"/>` + words(55, 29, 'book') + dim(102, 69, 102, 35) + dash('M92 35H106'),
  'cloth.heat_shrink': cloth('M30 10H90V70H30Z') + `<path class="d-dash" d="M36 16H84V64H36Z"/>` + thin('M48 44q6-6 0-12M60 44q6-6 0-12M72 44q6-6 0-12') + dim(30, 75, 90, 75),
  'form.kind': solid('M32 20C20 20 8 22 8 28C8 34 20 35 22 42V56H42V42C44 35 56 34 56 28C56 22 44 20 32 20Z') + solid('M66 50C66 42 76 38 90 38S114 42 114 50L112 54H68Z'),
  'form.wall': `<path class="d-hatch" d="${blockWall}"/>` + ink(blockWall) + dim(40, 58, 46, 58) + words(60, 60, ''),
  'form.collar': solid(blockSection) + red('M40 50H80') + dim(92, 50, 92, 66) + dash('M80 50H96M80 66H96'),
  'form.floor': `<path class="d-hatch" d="${blockWall}"/><path class="d-hatch" d="M46 58H74V66H46Z"/>` + ink(blockWall + 'M46 58H74M46 66H74') + dim(60, 58, 60, 66),
  'form.socket': solid(blockSection) + `<path class="d-label" d="M53 44H67V66H53Z"/>` + dim(53, 73, 67, 73),
  'form.socket_depth': solid(blockSection) + `<path class="d-label" d="M53 44H67V66H53Z"/>` + dim(60, 44, 60, 66),
  'form.groove_width': solid('M20 8H70V24Q62 24 62 34T70 44V72H20Z') + dim(82, 24, 82, 44) + dash('M70 24H86M70 44H86'),
  'form.groove_depth': solid('M20 8H70V24Q58 24 58 34T70 44V72H20Z') + dim(58, 34, 70, 34),
  'form.flange_width': solid('M60 10C42 10 26 12 26 20C26 30 42 32 44 42V58H30V66H90V58H76V42C78 32 94 30 94 20C94 12 78 10 60 10Z') + dim(76, 73, 90, 73),
  'form.flange_thickness': solid('M60 10C42 10 26 12 26 20C26 30 42 32 44 42V58H30V66H90V58H76V42C78 32 94 30 94 20C94 12 78 10 60 10Z') + dim(97, 58, 97, 66),
  'form.foot_edge': solid('M20 8H84V50L70 64H20Z') + red('M84 50L70 64'),
  'form.foot_edge_size': solid('M20 8H84V50L70 64H20Z') + dim(70, 71, 84, 71) + dash('M84 50V74'),
  'form.posts': `<path class="d-hatch" d="${blockWall}"/>` + ink(blockWall) + solid('M49 22H54V66H49ZM66 22H71V66H66Z'),
  'form.post_diameter': `<path class="d-hatch" d="${blockWall}"/>` + ink(blockWall) + solid('M52 22H68V66H52Z') + dim(52, 73, 68, 73),
  'vents.diameter': solid('M10 22H46V58H10ZM74 22H110V58H74Z') + dim(46, 40, 74, 40) + thin('M52 16q4-4 0-8M60 16q4-4 0-8M68 16q4-4 0-8'),
  'vents.spacing': cloth('M12 12H108V68H12Z') + [30, 60, 90].map((x) => `<circle class="d-hole" cx="${x}" cy="30" r="4"/>`).join('') + [45, 75].map((x) => `<circle class="d-hole" cx="${x}" cy="54" r="4"/>`).join('') + dim(30, 30, 60, 30),
  'vents.margin': cloth('M12 8H108V60H12Z') + red('M12 60H108') + '<circle class="d-hole" cx="60" cy="28" r="6"/>' + dim(60, 34, 60, 60),
  'vents.rim': solid('M10 20H36Q46 20 46 30V64H10ZM74 64V30Q74 20 84 20H110V64Z') + dim(36, 12, 46, 12) + dash('M36 20V10M46 30V10'),
  'dish.readings': solid('M8 26Q20 60 60 62Q100 60 112 26L116 26Q104 70 60 70Q16 70 4 26Z') + ruler(4, 24, 116, 24, -6) + dim(60, 26, 60, 60) + dim(84, 26, 84, 56) + dim(100, 26, 100, 44),
  'dish.file': solid('M8 26Q20 60 60 62Q100 60 112 26L116 26Q104 70 60 70Q16 70 4 26Z') + thin('M8 26Q60 40 112 26M30 52Q60 60 90 52M60 33V62M36 31L44 60M84 31L76 60'),
  'dish.gap': solid('M8 34Q20 66 60 68Q100 66 112 34L116 34Q104 76 60 76Q16 76 4 34Z') + cloth('M18 24H102Q94 58 60 60Q26 58 18 24Z') + dim(60, 60, 60, 68),
  'print.bed': solid('M14 58L40 40H106L84 58Z') + thin('M14 58V20M40 40V6M106 40V6M84 58V20') + dim(14, 66, 84, 66),
  'print.nozzle': solid('M46 8H74V34L64 46H56L46 34Z') + dim(56, 54, 64, 54) + thin('M20 66H100M20 70H100M20 74H100'),
  'print.dowel': solid('M10 20H54V60H10ZM66 20H110V60H66Z') + `<path class="d-tape-body" d="M34 34H86V46H34Z"/>` + dim(94, 34, 94, 46),
  'print.glue_gap': solid('M10 14H56V66H10ZM64 14H110V66H64Z') + dim(56, 40, 64, 40),
  'puzzle.pieces': solid('M50 14H70V66H50Z') + solid('M46 14C20 14 12 22 12 32S30 48 34 66H46Z') + solid('M74 14C100 14 108 22 108 32S90 48 86 66H74Z') + thin('M60 76v-6'),
  'puzzle.clearance': solid('M10 14H55V66H10ZM65 14H110V66H65Z') + dim(55, 40, 65, 40),
  'stack.sheet': [62, 50, 38, 26].map((y, i) => solid(`M${30 - 4 * i + (i === 3 ? 14 : 0)} ${y}H${90 + 4 * i - (i === 3 ? 14 : 0)}V${y + 10}H${30 - 4 * i + (i === 3 ? 14 : 0)}Z`)).join('') + dim(112, 38, 112, 48),
  'stack.hole': cloth('M60 10a29 29 0 0 1 0 58a29 29 0 0 1 0-58Z') + '<circle class="d-label" cx="60" cy="39" r="8"/>' + dim(52, 39, 68, 39),
  'marks.depth': solid('M10 26H50V44H70V26H110V66H10Z') + dim(60, 26, 60, 44) + dash('M50 26H70'),
  'press.press_cloth': solid('M10 60H110V74H10Z') + cloth('M10 50H110V60H10Z') + `<path class="d-layer" d="M10 47H110"/>` + solid('M34 42H96L86 26H50Z') + dim(20, 44, 20, 50),
  'press.load': solid('M20 60C20 48 40 44 60 44S100 48 100 60V72H20Z') + `<path class="d-dim" d="M60 8V40"/>` + arrowhead(60, 42, 0, 1),
  'press.steam_flow': solid('M34 40H86V72H34Z') + thin('M46 32q6-6 0-12t0-12M60 32q6-6 0-12t0-12M74 32q6-6 0-12t0-12') + words(60, 60, '5 min'),
  'band.depth': cloth('M14 28H106V54H14Z') + dash('M14 41H106') + dim(60, 28, 60, 54),
  'band.elastic': cloth('M10 28H40V54H10ZM80 28H110V54H80Z') + red('M40 41q3-8 6 0t7 0t7 0t7 0t7 0t6 0') + dim(40, 64, 80, 64),
  'band.elastic_stretched': cloth('M6 28H26V54H6ZM94 28H114V54H94Z') + red('M26 41q6-6 11 0t11 0t12 0t11 0t12 0t11 0') + dim(26, 64, 94, 64),
  'cover.tuck': solid('M24 26C24 18 40 14 60 14S96 18 96 26V46H24Z') + red('M20 40V26C20 14 40 10 60 10S100 14 100 26V48Q100 52 94 52H78M20 40V48Q20 52 26 52H42') + dim(96, 62, 78, 62),
  'cover.casing': cloth('M20 12H100V60Q100 68 92 68H28Q20 68 20 60Z') + '<circle class="d-label" cx="90" cy="61" r="4"/>' + dim(108, 52, 108, 68) + dash('M24 52H104'),
  'mill.tool': solid('M52 4H68V50Q68 62 60 62T52 50Z') + dim(52, 70, 68, 70),
  'mill.rough_tool': solid('M50 4H70V60H50Z') + dim(50, 70, 70, 70),
  'mill.drill': solid('M54 4H66V54L60 64L54 54Z') + thin('M54 14L66 24M54 26L66 36M54 38L66 48') + dim(54, 72, 66, 72),
  'mill.flute': solid('M52 4H68V30H52Z') + cloth('M52 30H68V58Q68 68 60 68T52 58Z') + dim(80, 30, 80, 68),
  'mill.stick_out': solid('M40 4H80V18H40Z') + cloth('M52 18H68V58Q68 68 60 68T52 58Z') + dim(92, 18, 92, 68),
  'mill.holder': solid('M36 10H84V32H36Z') + cloth('M54 32H66V66H54Z') + dim(36, 42, 84, 42),
  'mill.stock_sheets': solid('M14 22H106V36H14ZM14 38H106V52H14Z') + dim(112, 38, 112, 52),
  'mill.scallop': solid('M10 70V44Q25 60 40 44Q55 60 70 44Q85 60 100 44V70Z') + dim(108, 44, 108, 52) + '<circle class="d-red" cx="55" cy="30" r="21"/>',
  'pattern.seam_tape_thickness': cloth('M10 44H56V60H10ZM64 44H110V60H64Z') + `<path class="d-tape-body" d="M36 34H84V43H36Z"/>` + dim(96, 34, 96, 43),
  'print.dowel_clearance': solid('M14 8H106V72H14Z') + '<circle class="d-label" cx="60" cy="40" r="24"/><circle class="d-tape-body" cx="60" cy="40" r="18"/>' + dim(78, 40, 84, 40),
  'mill.drill_flute': solid('M54 4H66V22H54Z') + cloth('M54 22H66V60L60 70L54 60Z') + thin('M54 32L66 42M54 44L66 54') + dim(80, 22, 80, 70),
  'mill.stock_size': solid('M14 50L44 22H108L78 50ZM14 50H78V60H14Z') + thin('M78 60L108 32V22') + dim(14, 70, 78, 70) + dim(88, 60, 114, 36),
  'mill.travel': thin('M30 62L54 44H108L84 62Z') + dim(30, 70, 84, 70) + dim(92, 66, 114, 49) + dim(20, 60, 20, 12) + solid('M56 10H64V40L60 46L56 40Z'),
  'mill.spoilboard': solid('M30 18H90V46H30Z') + cloth('M10 48H110V66H10Z') + dim(114, 48, 114, 66),
  'mill.step_down': solid('M10 72V56H40V40H70V24H110V72Z') + dim(55, 40, 55, 56) + dash('M40 56H60'),
  'mill.step_over': solid('M10 72V50Q25 66 40 50Q55 66 70 50Q85 66 100 50V72Z') + dim(40, 40, 70, 40) + dash('M40 36V50M70 36V50'),
  'sizes.head_step': ink(head) + tape('M31 33Q60 25 89 38') + dash('M28 37Q60 29 93 42') + dim(89, 48, 99, 48),
  'sizes.crown_step': cloth('M60 12a27 27 0 0 1 0 54a27 27 0 0 1 0-54Z') + dash('M60 6a33 33 0 0 1 0 66a33 33 0 0 1 0-66Z') + dim(87, 39, 93, 39),
  'sizes.rise_step': cloth(crown) + dash('M60 10C36 10 14 18 13 32M60 10C84 10 106 18 107 32') + dim(60, 18, 60, 10),
  'mesh.chord_tolerance': dash('M10 60A56 56 0 0 1 110 60') + ink('M10 60L60 28.5L110 60') + dim(33, 45, 30, 38),
};

/** Markup of the drawing for that key, or '' where there is none. */
export function drawingOf(key) {
  return drawings[key] ?? '';
}

export const waysDrawn = {
  measures: ink(head) + tape('M31 33Q60 25 89 38'),
  panel: cloth(panelShape) + dash('M60 8V74') + thin('M47.5 30H72.5M40 42H80M36 53H84'),
  discs: cloth('M34 12a24 24 0 0 1 0 48a24 24 0 0 1 0-48Z') + `<path class="d-cloth" fill-rule="evenodd" d="M88 22a24 24 0 0 1 0 48a24 24 0 0 1 0-48ZM88 34a12 12 0 0 0 0 24a12 12 0 0 0 0-24Z"/>`,
  dish: solid('M8 30Q20 64 60 66Q100 64 112 30L116 30Q104 74 60 74Q16 74 4 30Z') + cloth('M20 24H100Q92 58 60 60Q28 58 20 24Z'),
};
