// Dragging through many values leaves no old picture behind.
import assert from 'node:assert/strict';
import {address, millimetres, near, openBench, tried} from './support/bench.mjs';
import {ask} from './support/program.mjs';

const crown = 'measure.crown_diameter';
const serial = (bench) => bench.page.evaluate(() => Number(document.body.dataset.serial));

/** The order that the page's address holds, read by rules of our own. */
export async function orderInAddress(bench) {
  await bench.page.waitForTimeout(400);  // the address follows when the hand rests
  const hash = await bench.page.evaluate(() => location.hash);
  assert.ok(hash.startsWith('#order:'), `the address holds no order: ${hash}`);
  return Object.fromEntries(hash.slice('#order:'.length).split('&').map((pair) => {
    const [key, value] = pair.split('=').map((word) => decodeURIComponent(word.replaceAll('+', '%20')));
    return [key, value ?? true];
  }));
}

/** What the last value must look like: the core's own answer to the same order, and a page that has never shown another one. */
async function isLast(bench, context, said) {
  await bench.current();
  const reach = Number(await bench.page.locator('#meridian').getAttribute('data-crown'));  // at once: it says that it is current
  const order = await orderInAddress(bench);
  assert.equal(order[crown], said);
  const fresh = await ask(address(), '/api/preview', {order, view: 'form'});
  assert.equal(fresh.ok, true);
  near(reach, Math.max(fresh.figures.crown_diameter / 2, ...fresh.meridian.flatMap(({from, to}) => [from[0], to[0]])), 1e-9, 'the meridian\'s reach');
  near(await bench.figure('Crown diameter'), fresh.figures.crown_diameter, 0.51, 'the crown told');

  const other = await openBench(context, await bench.page.evaluate(() => location.hash));
  for (const one of [bench, other]) {
    await one.page.mouse.move(0, 0);
    await one.page.evaluate(() => document.activeElement?.blur());
    // From where the eye stands depends on what was shown before; this brings it where it would be at once.
    await one.page.evaluate(() => document.getElementById('apart').dispatchEvent(new Event('input')));
    await one.page.locator('[data-look="slant"]').click();
    await one.page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  }
  assert.ok(await bench.page.locator('#meridian').innerHTML() === await other.page.locator('#meridian').innerHTML(), 'the meridian is not that of the last value');
  const pixels = ({page}) => page.evaluate(() => document.getElementById('form-canvas').toDataURL());
  assert.ok(await pixels(bench) === await pixels(other), 'the picture in 3D is not that of the last value');
  await other.page.close();
}

tried('dragging a dimension through 100 values ends with the picture of the last', {}, async (bench) => {
  const {page} = bench, context = page.context();
  const before = await serial(bench);
  const figure = page.locator(`[data-dimension="${crown}"] .m-plate`);
  const box = await figure.boundingBox();
  let [x, y] = [box.x + box.width / 4, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  const values = new Set();
  for (let i = 1; i <= 120; ++i) {
    await page.mouse.move(x + (i <= 60 ? i : 120 - i) * 0.7 - i * 0.1, y);
    values.add(await bench.at(crown).inputValue());
  }
  await page.mouse.up();
  const said = await bench.at(crown).inputValue();
  assert.ok(values.size >= 40, `only ${values.size} values passed`);
  await isLast(bench, context, said);
  assert.ok(await serial(bench) - before >= 3, 'no picture was shown on the way');
  await page.locator('#undo').click();
  await bench.current();
  assert.equal(await bench.at(crown).inputValue(), '28 cm', 'a drag is not undone as one');
});

tried('the arrow keys take a dimension through 100 values, each 1 mm, and end with the picture of the last', {}, async (bench) => {
  const {page} = bench, dimension = page.locator(`[data-dimension="${crown}"]`);
  const before = await serial(bench);
  await dimension.focus();
  for (let i = 0; i < 70; ++i) await page.keyboard.press('ArrowUp');
  for (let i = 0; i < 30; ++i) await page.keyboard.press('ArrowDown');
  near(millimetres(await bench.at(crown).inputValue()), 280 + 70 - 30, 1e-9, 'a hundred steps of a millimetre');
  assert.equal(await dimension.getAttribute('aria-valuenow').then(Number) > 280, true);
  await isLast(bench, page.context(), await bench.at(crown).inputValue());
  assert.ok(await serial(bench) - before >= 100, 'steps were not counted');
});

tried('an answer that comes when another value is typed already is never taken for the current one', {}, async (bench) => {
  const {page} = bench, held = [];
  await bench.put('measure.taken_at', 'form');  // what is typed is then what the form has
  await bench.current();
  // Notes what stands in the field, in the table and in the drawing each time the page begins to say that all of it is current.
  await page.evaluate((key) => {
    window.seen = [];
    let was = true;
    new MutationObserver(() => {
      const is = document.body.matches('.ready:not(.behind):not(.wrong)');
      if (is && !was) queueMicrotask(() => window.seen.push([document.getElementById(key).value, document.querySelector('#figures td').textContent, Number(document.getElementById('meridian').dataset.crown)]));
      was = is;
    }).observe(document.body, {attributeFilter: ['class']});
  }, crown);
  await page.route('**/api/preview', (route) => { held.push(route); });
  const next = async () => { while (held.length === 0) await page.waitForTimeout(5); return held.shift(); };
  const type = (mm) => bench.at(crown).evaluate((field, text) => { field.value = text; field.dispatchEvent(new Event('input', {bubbles: true})); }, `${mm / 10} cm`);
  // Where the machine is slow the page breaks questions off before they are answered; those are no late answers.
  let late = 0, rounds = 0;
  for (; late < 4 && rounds < 30; ++rounds) {
    await type(250 + 2 * rounds);
    const question = await next(), shown = await serial(bench);
    await type(250 + 2 * rounds + 1);  // while the answer is on its way
    await question.continue().catch(() => {});  // the page has hung up on it
    await (await next()).continue().catch(() => {});
    late += await serial(bench) > shown;
    await bench.current();
  }
  assert.ok(late > 0, 'no answer came late');
  await page.unroute('**/api/preview');
  const seen = await page.evaluate(() => window.seen);
  assert.ok(seen.length >= rounds, `the page was current ${seen.length} times only`);
  for (const [typed, told, reach] of seen) {
    near(millimetres(told), millimetres(typed), 1e-9, 'the crown told while another is typed');
    near(2 * reach, millimetres(typed), 1e-6, 'the crown drawn while another is typed');
  }
});

tried('answers that come late and out of order do not stand for the last value', {}, async (bench) => {
  const {page} = bench;
  let asked = 0;
  await page.route('**/api/preview', async (route) => {
    const late = [900, 30, 1200, 10, 400][asked++ % 5];
    await new Promise((done) => setTimeout(done, late));
    await route.continue().catch(() => {});  // the page has hung up on it
  });
  for (let mm = 270; mm <= 279; ++mm) {
    await bench.at(crown).fill(`${mm} mm`);
    await page.waitForTimeout(90);
  }
  await bench.current();
  await page.unroute('**/api/preview');
  await isLast(bench, page.context(), '279 mm');
});
