// A page of crownwright in a real browser, with whatever goes wrong on it noted down.
import assert from 'node:assert/strict';
import path from 'node:path';
import {after, before, describe, test} from 'node:test';
import {pathToFileURL} from 'node:url';
import {chromium} from 'playwright-core';
import {serve, work} from './program.mjs';

// Drawing in 3D by software; no name but this machine's is ever found, so nothing can be fetched from elsewhere.
const flags = ['--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--use-gl=angle', '--use-angle=swiftshader',
  '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1',
  // What playwright turns off in Chromium (of two such flags the last one counts), and the address bar's own pages, which cost every new window more than ours does.
  `--disable-features=${['AvoidUnnecessaryBeforeUnloadCheckSync', 'BoundaryEventDispatchTracksNodeRemoval', 'DestroyProfileOnBrowserClose', 'DialMediaRouteProvider', 'GlobalMediaControls', 'HttpsUpgrades', 'LensOverlay', 'MediaRouter',
    'OptimizationHints', 'PaintHolding', 'RenderDocument', 'ThirdPartyStoragePartitioning', 'Translate', 'WebUIOmniboxPopup', 'WebUIOmniboxAimPopup'].join(',')}`];
if (process.getuid?.() === 0) flags.push('--no-sandbox');

export const desk = {viewport: {width: 1280, height: 720}};
const patience = Number(process.env.PATIENCE ?? 30_000);  // ms, for one step
const longest = 6 * patience;  // for one test, so that none hangs

let browser, program;
const all = [];  // what runTests() runs
/** The server's address. */
export const address = () => program.address;

/** One test on a page that has just been loaded. Errors in the console, uncaught ones, breaches of the content policy and requests to
    anywhere but the server fail it, whatever else it tries. options: of the browser's context, and {hash}; {wrong: true} where the hash
    brings a page that has something to say against it; {looks: 'smooth'} where the picture in 3D is to be looked at, {looks: 'none'} for a
    browser that draws nothing in 3D, which the page must bear. */
export function tried(name, options, body) {
  all.push([name, async () => {
    const {hash = '', wrong = false, ...screen} = options;
    const context = await newContext(screen);
    try {
      await within(longest, name, async () => body(await openBench(context, hash, wrong)));
    } catch (error) {
      const picture = path.join(work, 'pictures', `failed-${name.replaceAll(/\W+/g, '-').slice(0, 60)}.png`);
      await context.pages()[0]?.screenshot({path: picture}).catch(() => {});
      if (context.problems.length > 0) error.message += `\nand on the page: ${context.problems.join('\n')}`;
      throw error;
    } finally {
      await context.close();
    }
    assert.deepEqual(context.problems, [], 'something went wrong on the page');
  }]);
}

/** Runs everything tried, some at a time, in one browser and with one server. */
export function runTests() {
  describe('the page', {concurrency: 3}, () => {
    before(async () => {
      [program, browser] = await Promise.all([serve(), chromium.launch({executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', headless: true, args: flags})]);
    });
    for (const [name, body] of all) test(name, {timeout: longest + 2 * patience}, body);
    after(async () => {
      if (browser) await within(patience, 'closing the browser', () => browser.close());
      if (program) assert.equal(await within(patience, 'the server\'s end', () => program.stop()), 0, 'the page\'s server did not end cleanly on SIGTERM');
    });
  });
}

/** What `work` gives, or an error when it takes longer: an unanswered question to the browser waits for ever by itself. */
async function within(ms, what, work) {
  let timer;
  const late = new Promise((_, failed) => { timer = setTimeout(() => failed(new Error(`${what}: not done after ${ms / 1000} s`)), ms); });
  try {
    return await Promise.race([work(), late]);
  } finally {
    clearTimeout(timer);
  }
}

// Drawn by software, smooth edges cost half of every picture.
function drawLess(looks) {
  const given = HTMLCanvasElement.prototype.getContext;
  HTMLCanvasElement.prototype.getContext = function (kind, wishes) {
    return kind !== 'webgl2' ? given.call(this, kind, wishes) : looks === 'none' ? null : given.call(this, kind, {...wishes, antialias: false});
  };
}

/** A browser's profile of its own; context.problems collects what goes wrong on its pages. */
export async function newContext({looks = 'rough', ...options} = {}) {
  const context = await browser.newContext({locale: 'en-GB', reducedMotion: 'reduce', ...desk, ...options});
  context.setDefaultTimeout(patience);
  context.problems = [];
  context.on('request', (request) => {
    const url = new URL(request.url());
    if (!['blob:', 'data:'].includes(url.protocol) && url.origin !== new URL(program.address).origin) context.problems.push(`asked elsewhere: ${request.url()}`);
  });
  context.on('console', (message) => { if (message.type() === 'error') context.problems.push(`console: ${message.text()} ${message.location().url}`); });
  context.on('weberror', (error) => context.problems.push(`uncaught: ${error.error().stack ?? error.error()}`));
  context.on('dialog', (dialog) => { context.problems.push(`dialog: ${dialog.message()}`); dialog.dismiss(); });
  await context.addInitScript(() => document.addEventListener('securitypolicyviolation', (event) => console.error(`content policy: ${event.violatedDirective} ${event.blockedURI} ${event.sample}`)));
  if (looks !== 'smooth') await context.addInitScript(drawLess, looks);
  // To see the tests fail: a module whose default function spoils the page of a context on purpose.
  if (process.env.SPOIL) await (await import(pathToFileURL(path.resolve(process.env.SPOIL)))).default(context);
  return context;
}

export async function openBench(context, hash = '', wrong = false) {
  const page = await context.newPage();
  await page.goto(`${program.address}${hash}`);
  const bench = new Bench(page);
  if (!wrong) await bench.current();
  return bench;
}

export class Bench {
  constructor(page) { this.page = page; }

  /** The element with that id; keys of the order hold dots. */
  at(id) { return this.page.locator(`[id="${id}"]`); }

  /** Waits until what is on the screen belongs to what is typed. */
  async current() {
    await this.page.waitForFunction(() => document.body.matches('.ready:not(.behind):not(.wrong)'), null, {polling: 20}).catch(async (error) => {
      const said = await this.page.evaluate(() => [document.body.className, document.getElementById('fault')?.innerText, document.getElementById('notice-words')?.innerText].join(' | '));
      throw new Error(`the picture does not become current: ${said}`, {cause: error});
    });
  }

  /** Opens what the field is folded away in. */
  async unfold(id) {
    await this.at(id).evaluate((element) => { for (let fold = element.closest('details'); fold; fold = fold.parentElement.closest('details')) fold.open = true; });
  }

  /** Types, chooses or ticks, after the kind of the field. */
  async put(key, value) {
    const field = this.at(key);
    await this.unfold(key);
    const kind = await field.evaluate((element) => (element.tagName === 'SELECT' ? 'select' : element.type));
    if (kind === 'select') await field.selectOption(value);
    else if (kind === 'checkbox') await field.setChecked(value);
    else await field.fill(value);
  }

  async putAll(values) { for (const [key, value] of Object.entries(values)) await this.put(key, value); }

  async begin(way) { await this.at(`begin.${way}`).check(); }

  /** What the field says is wrong, once it says so. */
  async faultOf(key) {
    const fault = this.at(`${key}.fault`);
    await fault.waitFor({state: 'visible'}).catch(async (error) => {
      const said = await this.page.evaluate(() => [document.body.className, document.getElementById('fault')?.innerText].join(' | '));
      throw new Error(`${key} says nothing of what is wrong with “${(await this.at(key).inputValue()).slice(0, 60)}”; elsewhere it says: ${said}`, {cause: error});
    });
    return fault.innerText();
  }

  /** Clicks and keeps what is downloaded; the path of it. */
  async download(click, name) {
    const [download] = await Promise.all([this.page.waitForEvent('download'), click()]);
    const file = path.join(work, 'taken', name ?? download.suggestedFilename());
    await download.saveAs(file);
    return file;
  }

  /** Takes one file by its ending, or all as a zip. */
  async take(ending, name) {
    await this.current();
    const button = ending ? this.page.locator(`[data-ending="${ending}"]`) : this.page.locator('#take-all');
    return this.download(() => button.click(), name);
  }

  /** The order file's text, as it is saved. */
  async saved(name) {
    const {readFile} = await import('node:fs/promises');
    return readFile(await this.download(() => this.page.locator('#save-order').click(), name), 'utf8');
  }

  /** The form's own figure in mm, as the table of figures has it. */
  async figure(name) {
    const text = await this.page.locator('#figures tr', {has: this.page.locator('th', {hasText: new RegExp(`^${name}$`)})}).locator('td').innerText();
    return millimetres(text);
  }

  picture(name, options = {}) { return this.page.screenshot({path: path.join(work, 'pictures', name), ...options}); }
}

/** "12.5 mm", "28 cm" or "10 3/4 in". */
export function millimetres(text) {
  const [, whole = '0', over, under = '1', unit] = text.match(/^(?:([\d.]+) )?(?:(\d+)\/(\d+) )?(mm|cm|in)$/) ?? assert.fail(`“${text}” is no length`);
  return (Number(whole) + Number(over ?? 0) / Number(under)) * {mm: 1, cm: 10, in: 25.4}[unit];
}

export function near(value, wanted, tolerance, what) {
  assert.ok(Math.abs(value - wanted) <= tolerance, `${what}: ${value}, not ${wanted} to within ${tolerance}`);
}
