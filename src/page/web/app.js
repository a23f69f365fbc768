// The page's one start: lets the order, its fields, the pictures and the findings know of each other.
import {readAddress, writeAddress} from './core/address.js';
import {writeLength} from './core/lengths.js';
import {OrderStore} from './core/order_store.js';
import {PreviewLoop} from './core/preview_loop.js';
import {pickedOf, shownOrder, takenOrder} from './core/sizes.js';
import {workshop as askWorkshop} from './core/server.js';
import {firstOrder, goWay, instead, kindOf, knowKeys, settle, usedOf, wayOf} from './core/ways.js';
import {waysOut} from './core/ways_out.js';
import {announce, notice, setUpNotice} from './screen/announce.js';
import {slipOf, sentence, toldFault} from './screen/fields.js';
import {Findings, spoken} from './screen/findings.js';
import {FormView} from './screen/form_view.js';
import {Groups, tableOf, tableStands} from './screen/groups.js';
import {labelOf, plainWords} from './screen/labels.js';
import {MeridianDrawing} from './screen/meridian.js';
import {setUpOrderFile} from './screen/order_file.js';
import {SizePicker} from './screen/size_picker.js';
import {TakeFiles} from './screen/take_files.js';
import {setUpTable} from './screen/view_table.js';

const byId = (id) => document.getElementById(id);
const typingPause = 450;  // ms
const fileKeys = ['pattern.file', 'dish.file'];

class Page {
  constructor(workshop) {
    this.workshop = workshop;
    this.keys = new Map(workshop.keys.map((key) => [key.path, key]));
    knowKeys(workshop.keys);
    this.store = new OrderStore();
    this.store.settle = settle;
    this.named = {};  // files that an opened order names and that are still to be attached
    this.view = 'form';
    this.size = '';   // of a run
    this.touched = '';  // the key that was changed last
    const context = this.#context();
    this.groups = new Groups(context);
    this.meridian = new MeridianDrawing(byId('meridian'), {...context, order: () => shownOrder(this.store.order, this.size), focus: (key) => this.focusField(key), key: (path) => this.keys.get(path),
      isListed: (key) => key in (pickedOf(this.store.order, this.size)?.values ?? {})});
    this.findings = new Findings({cards: byId('cards'), chart: byId('chart'), figures: byId('figures'), fault: byId('fault'), short: byId('in-short')},
      {change: (values, words) => this.#tryChange(values, words), focusField: (key) => this.focusField(key), plain: (words) => plainWords(words, '', [...this.keys.keys()])});
    this.files = new TakeFiles(byId('group-take'), {order: () => takenOrder(this.store.order, this.size), run: () => this.store.order, attachments: () => usedOf(this.store.attachments, this.store.order), showFault: (fault) => this.#showFault(fault)});
    this.sizes = new SizePicker(byId('group-take'), {pick: (name) => this.#pick(name), takeAll: () => this.files.takeRun()});
    this.form = this.#formView();
    this.loop = new PreviewLoop({show: (answer, state) => this.#show(answer, state), wait: () => this.#behind()});
    setUpTable(this.form, {setView: (view) => this.#setView(view)});
    setUpOrderFile({order: context.order, begin: (order) => this.#open(order), missing: () => this.#missingFiles(), showFault: (fault) => this.#showFault(fault)});
    this.#listen();
  }

  #context() {
    return {
      workshop: this.workshop,
      order: () => this.store.order,
      change: (path, value, burst) => this.#change(path, value, burst),
      attach: (path, file) => this.#attach(path, file),
      goWay: (way) => this.store.become(goWay({order: this.store.order, shelf: this.store.shelf, attachments: this.store.attachments}, way)),
      setTable: (table, on) => this.#setTable(table, on),
      notice,
    };
  }

  #formView() {
    try {
      return new FormView(byId('form-canvas'));
    } catch {
      byId('form-stage').classList.add('without');
      byId('no-3d').hidden = false;
      return null;
    }
  }

  #listen() {
    this.store.addEventListener('change', ({detail}) => {
      this.touched = detail.by || this.touched;
      this.#changed();
    });
    byId('undo').addEventListener('click', () => this.#past('undo'));
    byId('redo').addEventListener('click', () => this.#past('redo'));
    byId('print').addEventListener('click', () => window.print());
    document.addEventListener('keydown', (event) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const letter = event.key.toLowerCase();
      if (letter !== 'z' && letter !== 'y') return;
      event.preventDefault();
      this.#past(letter === 'y' || event.shiftKey ? 'redo' : 'undo');
    });
    // A way to a place on the page is no order; the address takes its own up again.
    window.addEventListener('hashchange', () => (byId(location.hash.slice(1)) ? this.#writeAddress() : this.#fromAddress(location.hash, false)));
  }

  #past(step) {
    if (step === 'undo' ? !this.store.canUndo : !this.store.canRedo) return announce(step === 'undo' ? 'Nothing to undo.' : 'Nothing to redo.');
    this.store[step]();
    return announce(step === 'undo' ? 'Undone.' : 'Done again.');
  }

  start() {
    if (!this.#fromAddress(location.hash, true)) this.store.begin({...firstOrder});
  }

  // ---- the order ---------------------------------------------------------------------------------------------------------------

  #change(path, value, burst = '') {
    if (path === 'pattern.kind') return this.#context().goWay(value === '' ? 'measures' : value);
    const values = {[path]: value};
    if (instead[path] && value !== '') values[instead[path]] = '';
    if (path === 'dish.readings' && value !== '' && this.store.attachments['dish.file']) this.store.attach('dish.file', null);
    return this.store.change(values, {burst, by: path});
  }

  #tryChange(values, words) {
    this.store.change(values);
    const keys = Object.keys(values).map(labelOf).join(', ');
    notice(`Changed: ${sentence(words)} ${keys ? `(${keys}.) ` : ''}Undo takes it back.`);
    announce(`Changed: ${sentence(words)}`);
  }

  #attach(path, file) {
    delete this.named[path];
    if (path === 'dish.file' && file) this.store.change({'dish.readings': '', dish: true});
    this.store.attach(path, file);
  }

  #setTable(table, on) {
    if (on) return this.store.change({[table]: true});
    const values = Object.fromEntries(Object.keys(this.store.order).filter((key) => key === table || tableOf(key) === table).map((key) => [key, '']));
    return this.store.change(values);
  }

  // Files that an order names cannot be opened from here; the person attaches them.
  #open(order) {
    this.named = {};
    const rest = {...order};
    for (const key of fileKeys) {
      if (typeof rest[key] !== 'string') continue;
      this.named[key] = rest[key];
      delete rest[key];
      if (key === 'dish.file') rest.dish = true;
    }
    this.store.become({order: rest, shelf: {}, attachments: {}});
  }

  #missingFiles() {
    const [key] = Object.keys(this.named);
    if (!key && pickedOf(this.store.order, '')) return 'The order is a run of sizes. Under “Take the files” you pick the one that is shown and taken, or take them all.';
    return key ? `The order names the file “${this.named[key]}”. Attach it under “${labelOf(key)}”.` : null;
  }

  #fromAddress(hash, first) {
    if (!first && hash === writeAddress(this.store.order)) return true;
    const read = readAddress(hash, (key, value) => this.#isKey(key, value));
    if (read === null) return false;
    if (read.problem) {
      notice(read.problem);
      announce(read.problem);
      if (!first) this.#writeAddress();
      return false;
    }
    if (first) this.store.begin(read.order);
    else this.store.become({order: read.order, shelf: {}, attachments: {}});
    if (wayOf(read.order) === 'outline') notice('An address does not carry drawings: attach the panel\'s drawing again.');
    return true;
  }

  #isKey(key, value) {
    if (value === true) return [...this.keys.keys()].some((path) => tableOf(path) === key);
    return this.keys.has(key) && !fileKeys.includes(key);
  }

  #writeAddress() {
    clearTimeout(this.addressTimer);
    this.addressTimer = setTimeout(() => history.replaceState(null, '', writeAddress(this.store.order) || '#'), 250);
  }

  // ---- what follows from a change ----------------------------------------------------------------------------------------------

  #changed() {
    clearTimeout(this.faultTimer);
    const {order, attachments} = this.store;
    this.groups.show(order, attachments);
    this.sizes.show(order, this.size);
    byId('undo').setAttribute('aria-disabled', String(!this.store.canUndo));
    byId('redo').setAttribute('aria-disabled', String(!this.store.canRedo));
    document.title = `${order.name ? `${order.name} – ` : ''}crownwright`;
    this.#writeAddress();
    this.#ask();
  }

  #ask() {
    const {order, attachments} = this.store;
    const slip = [...this.keys.values()].map((key) => (key.path in order ? slipOf(key, order[key.path]) : null)).find(Boolean) ?? this.#unattached(order, attachments);
    if (slip) {
      this.loop.drop();
      this.#behind();
      return this.#showFaultSoon(slip);
    }
    return this.loop.ask(shownOrder(order, this.size), usedOf(attachments, order), this.view);
  }

  #unattached(order, attachments) {
    const lacks = (key, what) => ({exit: 2, where: key, what, allowed: this.named[key] ? `The order names “${this.named[key]}”.` : 'Nothing is sent anywhere: the program on this computer reads it.'});
    if (order['pattern.kind'] === 'outline' && !attachments['pattern.file']) return lacks('pattern.file', 'Attach the drawing of one panel, an SVG or DXF file');
    if (kindOf(order) === 'pad' && tableStands('dish', order) && !order['dish.readings'] && !attachments['dish.file']) return lacks('dish.file', 'Type the depths of the dish, or attach a mesh of it');
    return null;
  }

  #behind() {
    document.body.classList.add('behind');
    byId('drawings').setAttribute('aria-busy', 'true');
  }

  // Half a word is no error yet: while someone types, what is wrong waits until they pause.
  #showFaultSoon(fault) {
    clearTimeout(this.faultTimer);
    const pause = document.activeElement?.matches('input[type="text"], textarea') ? typingPause : 0;
    this.faultTimer = setTimeout(() => this.#showFault(fault), pause);
  }

  // Fields that a fault speaks of, for the way to them.
  #spokenOf(fault) {
    const listed = pickedOf(this.store.order, this.size)?.values ?? {};
    if (fault.where in listed) return ['sizes.list'];
    const named = this.keys.has(fault.where) ? [fault.where] : [];
    if (named.length > 0 && fault.exit !== 3) return named;
    const text = `${fault.what} ${fault.allowed}`.toLowerCase();
    const spoken = ['measure.head_girth', 'measure.crown_diameter', 'measure.rise', 'shape.edge_radius', 'shape.dome', 'form.collar', 'form.wall'].filter((key) => text.includes(labelOf(key).toLowerCase()));
    return [...new Set([...named, ...spoken].map((key) => (key in listed ? 'sizes.list' : key)))];
  }

  #showFault(refused) {
    clearTimeout(this.faultTimer);
    const fault = toldFault(refused, this.keys);
    const spoken = this.#spokenOf(refused).filter((key) => !this.groups.fields.get(key).element.hidden);
    // A form that cannot be has several keys to blame; of those it speaks of, the one just changed is marked.
    const marked = spoken.length === 0 && this.groups.fields.has(fault.where) ? fault.where : spoken.includes(this.touched) ? this.touched : spoken[0];
    const field = this.groups.fields.get(marked);
    for (const [path, one] of this.groups.fields) one.fault(path === marked ? fault : null);
    const tries = waysOut(refused, shownOrder(this.store.order, this.size)).filter(({key}) => spoken.includes(key)).map(({key, text}) => ({words: `${labelOf(key)}: ${text}`, order: {[key]: text}}));
    byId('drawings').setAttribute('aria-busy', 'false');
    document.body.classList.add('behind', 'wrong');
    byId('stale').hidden = false;
    this.files.allow(false);
    this.findings.fault({try: tries, ...fault}, spoken.slice(0, 3).map((key) => [key, labelOf(key)]));
    announce(`${field ? `${labelOf(marked)}: ` : ''}${sentence(fault.what)} ${sentence(fault.allowed ?? '')}`);
  }

  #show(answer, {serial, latest, view}) {
    if (!answer.ok) {
      if (latest) this.#showFaultSoon(answer.fault);
      return;
    }
    if (view === this.view) this.form?.show(answer);
    this.meridian.show(answer);
    document.body.dataset.serial = String(serial);
    if (!latest) return;
    for (const field of this.groups.fields.values()) field.fault(null);
    document.body.classList.remove('behind', 'wrong');
    byId('drawings').setAttribute('aria-busy', 'false');
    byId('stale').hidden = true;
    const list = this.findings.show(answer);
    this.files.show(answer.makes);
    this.files.allow(true);
    this.#describe(answer);
    this.#hint(answer);
    announce(spoken(list, answer));
  }

  #describe(answer) {
    const parts = answer.parts?.length ?? 0;
    byId('form-words').textContent = this.view === 'parts' ? (parts > 1 ? `In ${parts} parts: ${answer.parts.map((part) => part.name.replaceAll('-', ' ')).join(', ')}.` : 'This form is made in one piece.') : '';
    byId('apart').disabled = !(this.view === 'parts' && parts > 1);
    byId('apart-label').classList.toggle('off', byId('apart').disabled);
    byId('core-time').textContent = answer.core_ms === undefined ? '' : `reckoned in ${Math.round(answer.core_ms)} ms`;
  }

  // What the shape and the cloth give where nothing is typed, as the tape would find it.
  #hint({figures, unit}) {
    const {order} = this.store, at = order['measure.taken_at'] ?? 'outside';
    const cloth = this.workshop.cloths?.find((one) => one.name === order['cloth.name']);
    const outside = (figures.cloth_thickness ?? 0) * (at === 'form' ? 0 : at === 'cloth middle' ? 0.5 : 1);
    const from = (mm, what) => (mm === undefined ? '' : `${unit === 'in' ? writeLength(mm, unit) : `${Number(mm.toFixed(1))} mm`} (${what})`);
    const hints = {
      'shape.dome': from(figures.dome, 'from the shape'),
      'shape.edge_radius': from(figures.edge_radius + outside, 'from the shape'),
      'shape.under_edge_radius': figures.under_edge_radius === undefined ? '' : from(figures.under_edge_radius + outside, 'as it is'),
      'cloth.thickness': from(cloth?.thickness_mm, 'from the cloth'),
      'cloth.heat_shrink': cloth?.heat_shrink === undefined ? '' : `${cloth.heat_shrink} (from the cloth)`,
    };
    for (const [path, text] of Object.entries(hints)) this.groups.fields.get(path)?.hint(text);
  }

  #pick(name) {
    this.size = name;
    this.#ask();
  }

  #setView(view) {
    this.view = view;
    this.#ask();
  }

  focusField(key) {
    const field = this.groups.fields.get(key === 'measure.head_girth' && this.store.order['measure.hat_size'] ? 'measure.hat_size' : key);
    if (!field || field.element.hidden) return;
    field.focus();
    field.element.scrollIntoView({block: 'center', behavior: matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth'});
  }
}

setUpNotice();
try {
  const page = new Page(await askWorkshop());
  page.start();
  document.body.classList.add('ready');
} catch (error) {
  console.error(error);
  notice('The program behind this page does not answer. Start “crownwright page” again.');
}
