// What each key is called on the screen. A key without a line here shows its own name.

const labels = {
  name: 'Name',
  'measure.head_girth': 'Head girth',
  'measure.hat_size': 'Hat size, instead of the girth',
  'measure.crown_diameter': 'Crown diameter',
  'measure.rise': 'Rise',
  'measure.taken_at': 'Where the tape lay',
  'measure.before_steam': 'Measured before steaming',
  'panel_lengths.top': 'Panel length, tip to edge',
  'panel_lengths.under': 'Panel length, edge to head line',
  'shape.profile': 'Crown shape',
  'shape.dome': 'Dome of the tip',
  'shape.edge_radius': 'Edge radius',
  'shape.under_edge_radius': 'Edge radius below',
  'cloth.name': 'Cloth',
  'cloth.thickness': 'Thickness of all layers',
  'cloth.heat_shrink': 'Shrinks in steam by',
  'pattern.kind': 'Kind of pattern',
  'pattern.panels': 'Panels',
  'pattern.seam_allowance': 'Seam allowance',
  'pattern.includes_allowance': 'The drawing includes the allowance',
  'pattern.stations': 'Widths down the panel',
  'pattern.file': 'Drawing of one panel',
  'pattern.layer': 'Line or layer meant',
  'pattern.fold': 'Cut on a fold at the',
  'pattern.drawing_unit': 'Unit of the drawing',
  'pattern.top_diameter': 'Round top',
  'pattern.ring_diameter': 'Ring, outside',
  'pattern.ring_opening': 'Ring, opening',
  'pattern.length_along': 'Length kept along',
  'pattern.seam_tape': 'Seam tape, width',
  'pattern.seam_tape_thickness': 'Seam tape, thickness',
  'draft.pieces': 'Pieces',
  'band.depth': 'Depth of the band',
  'band.strips': 'Strips',
  'band.elastic': 'Elastic, at rest',
  'band.elastic_stretched': 'Elastic, stretched',
  'band.stretch': 'Stretch of the band',
  'cover.tuck': 'Tucked in under the pad',
  'cover.casing': 'Casing for the cord',
  'sizes.list': 'Sizes, row by row',
  'sizes.hat_sizes': 'Hat sizes',
  'sizes.smaller': 'Sizes below',
  'sizes.larger': 'Sizes above',
  'sizes.head_step': 'Head girth, step',
  'sizes.crown_step': 'Crown diameter, step',
  'sizes.rise_step': 'Rise, step',
  'form.kind': 'Block or pad',
  'form.wall': 'Wall',
  'form.collar': 'Collar',
  'form.floor': 'Floor',
  'form.socket': 'Socket for a stand',
  'form.socket_depth': 'Depth of the socket',
  'form.groove_width': 'Cord groove, width',
  'form.groove_depth': 'Cord groove, depth',
  'form.flange_width': 'Flange, width',
  'form.flange_thickness': 'Flange, thickness',
  'form.foot_edge': 'Edge of the foot',
  'form.foot_edge_size': 'Size of that edge',
  'form.posts': 'Posts inside',
  'form.post_diameter': 'Posts, diameter',
  'dish.readings': 'Depths of the dish',
  'dish.file': 'Mesh of the dish',
  'dish.gap': 'Room for cover and cloth',
  'vents.diameter': 'Vent diameter',
  'vents.spacing': 'Vent spacing',
  'vents.margin': 'Free of edges by',
  'vents.rim': 'Rim broken by',
  'vents.rim_style': 'Rim',
  'print.material': 'Material',
  'print.bed': 'Bed, width x depth x height',
  'print.printer': 'Printer',
  'print.nozzle': 'Nozzle',
  'print.infill': 'Infill',
  'print.licence': 'Licence of your design',
  'print.split': 'Cut to fit the bed',
  'print.dowel': 'Dowels, diameter',
  'print.dowel_clearance': 'Dowels, clearance',
  'print.glue_gap': 'Room for glue',
  'puzzle.pieces': 'Pieces',
  'puzzle.cap': 'The pressed cap is',
  'puzzle.clearance': 'Clearance',
  'stack.sheet': 'Sheet thickness',
  'stack.outline': 'Cut line',
  'stack.hole': 'Hole for the skewer',
  'marks.text': 'Text',
  'marks.depth': 'Depth of the marks',
  'press.heat': 'Pressed with',
  'press.iron': 'Iron, degrees Celsius',
  'press.press_cloth': 'Press cloth, thickness',
  'press.steam_flow': 'Steam',
  'press.load': 'Force on the tip',
  'press.accept_risk': 'Accept the risk, in words',
  'mill.material': 'Material to mill',
  'mesh.chord_tolerance': 'Facets off the surface by',
  'mesh.formats': 'Mesh files',
  'mesh.ascii': 'As readable text',
};

/** What the optional tables offer, as the words beside their switch. */
export const offers = {
  vents: 'Steam vents',
  draft: 'Draft the pattern that sews up to this form',
  band: 'Draft a band',
  cover: 'Draft a cover for the pad',
  sizes: 'Make a run of sizes',
  dish: 'Fit the pad to a dish',
  puzzle: 'Let the block come apart (puzzle block)',
  stack: 'Templates to cut it from sheets',
  marks: 'Engrave marks on the foot',
  press: 'Say how it will be pressed',
  mill: 'Programs for a small router',
};

const sentence = (text) => text.charAt(0).toUpperCase() + text.slice(1).replaceAll('_', ' ');

export function labelOf(key) {
  return labels[key] ?? sentence(key.slice(key.indexOf('.') + 1));
}

/** What the core says in the words of an order file, in the words of the screen. `where` is the key that is spoken of. */
export function plainWords(text, where, paths) {
  const known = new Set(paths), own = where.includes('.') ? where.slice(0, where.indexOf('.')) : where;
  const pathOf = (name, table) => [`${table ?? own}.${name}`, ...paths.filter((path) => path.endsWith(`.${name}`))].find((path) => known.has(path));
  const named = (path) => `“${labelOf(path)}”`;
  return text
    .replace(/(?:\b(?:add|write) )?(?:a line )?\b([a-z_]+) = (?:"([^"]*)"|([\w.]+))(?: under \[(\w+)\])?/g, (all, name, quoted, bare, table) => {
      const path = pathOf(name, table);
      return path ? `${named(path)}: ${quoted ?? bare}` : all;
    })
    .replace(/\b([a-z]+(?:_[a-z]+)*\.[a-z_]+)\b/g, (all, path) => (known.has(path) ? named(path) : all))
    .replace(/\b[a-z]+(?:_[a-z]+)+\b/g, (all) => (pathOf(all) ? named(pathOf(all)) : all))
    .replace(/(?:the table )?\[(\w+)\]/g, (all, table) => (tableWords[table] ? `“${tableWords[table]}”` : all));
}

const tableWords = {...offers, measure: 'Measures', shape: 'Shape', cloth: 'Cloth', form: 'The form', pattern: 'Pattern', panel_lengths: 'Two lengths of a panel', print: 'Printing', mesh: 'Mesh files'};
