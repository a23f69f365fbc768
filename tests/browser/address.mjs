// Undo, redo, the address that carries the order, and pages beside each other.
import assert from 'node:assert/strict';
import {orderInAddress} from './dragging.mjs';
import {readFile} from 'node:fs/promises';
import path from 'node:path';
import {address, near, newContext, openBench, tried} from './support/bench.mjs';
import {ask, prove, source} from './support/program.mjs';

tried('undo goes back through every change and redo forth again', {}, async (bench) => {
  const {page} = bench;
  const orders = [await bench.saved('undo.toml')];
  const changes = [['measure.rise', '8 cm'], ['form.collar', '20 mm'], ['cloth.name', 'fleece'], ['puzzle', true], ['shape.profile', 'narrow-edge']];
  for (const [key, value] of changes) {
    await bench.put(key, value);
    await bench.current();
    orders.push(await bench.saved('undo.toml'));
    assert.notEqual(orders.at(-1), orders.at(-2), `${key} changes nothing in the order`);
  }
  await bench.begin('dish');
  await bench.current();
  orders.push(await bench.saved('undo.toml'));
  for (let i = orders.length - 2; i >= 0; --i) {
    await page.locator('#undo').click();
    await bench.current();
    assert.equal(await bench.saved('undo.toml'), orders[i], `undo does not go back to order ${i}`);
  }
  assert.equal(await page.locator('#undo').getAttribute('aria-disabled'), 'true');
  for (let i = 1; i < orders.length; ++i) {
    if (i % 2) await page.keyboard.press('Control+Shift+z');
    else await page.locator('#redo').click();
    await bench.current();
    assert.equal(await bench.saved('undo.toml'), orders[i], `redo does not go forth to order ${i}`);
  }
  // What the dish had no place for waits for a change of mind, redone or not.
  await bench.begin('measures');
  await bench.current();
  assert.equal(await bench.saved('undo.toml'), orders.at(-2), 'going back to measures brings other measures');
});

tried('the address gives the same order again', {}, async (bench) => {
  const {page} = bench;
  await bench.begin('discs');
  await bench.putAll({name: 'Zoë & son = 100 % + “#1”', 'print.infill': '0.3', draft: true, 'pattern.panels': '8', 'pattern.seam_allowance': '3/8 in'});
  await bench.current();
  const order = await orderInAddress(bench);
  const text = await bench.saved('address.toml');
  assert.equal((await ask(address(), '/api/save', {order})).toml, text, 'the address holds another order than the page');
  assert.match(text, /Zoë & son = 100 % \+ “#1”/);
  await page.reload();
  await bench.current();
  assert.equal(await bench.saved('address.toml'), text, 'the reloaded page has another order');
  const other = await openBench(page.context(), await page.evaluate(() => location.hash));
  assert.equal(await other.saved('address.toml'), text, 'another page with the same address has another order');
});

for (const [what, hash] of [['of another kind', '#nonsense'], ['of a key that does not exist', '#order:measure.rise=7+cm&no.such=1'], ['that is cut off', '#order:measure.rise=%E0%A4'], ['with a value no one can read', '#order:measure.rise=%3Cscript%3E&measure.crown_diameter=28+cm'],
  ['that is far too long', `#order:name=${'a'.repeat(70_000)}`], ['that is a prototype\'s', '#order:__proto__=1']]) {
  tried(`an address ${what} gets a message and a page that works`, {hash, wrong: true, looks: 'none'}, async ({page: one}) => {
    await one.locator('#notice:visible, #fault:visible').first().waitFor();
    assert.ok((await one.locator('#notice:visible, #fault:visible').first().innerText()).length > 20);
    await one.locator('[id="measure.rise"]').fill('7.2 cm');
    await one.waitForFunction(() => document.body.matches('.ready:not(.behind)') && document.getElementById('fault').hidden || document.getElementById('fault').innerText.includes('Head girth'));
  });
}

tried('two pages at once do not mix', {}, async (bench) => {
  const context = await newContext();
  try {
    const pages = [bench, await openBench(bench.page.context()), await openBench(context)];
    const crowns = [262, 281, 297];
    // In turns, so that their questions cross on the way.
    for (let step = 0; step < 6; ++step)
      await Promise.all(pages.map((one, i) => one.put('measure.crown_diameter', `${crowns[i] - 5 + step} mm`)));
    await Promise.all(pages.map((one, i) => one.putAll({name: `Page ${i}`, 'measure.taken_at': 'form', 'mesh.chord_tolerance': '0.1 mm'})));
    const files = await Promise.all(pages.map((one, i) => one.take('.stl', `page-${i}.stl`)));
    for (const [i, file] of files.entries()) {
      near(await pages[i].figure('Crown diameter'), crowns[i], 0.51, `the crown told on page ${i}`);
      near((await prove(file)).size[0], crowns[i], 0.1, `crown diameter taken from page ${i}`);
      const order = await orderInAddress(pages[i]);
      assert.equal(order.name, `Page ${i}`);
      assert.equal(order['measure.crown_diameter'], `${crowns[i]} mm`);
    }
  } finally {
    await context.close();
  }
  assert.deepEqual(context.problems, []);
});

tried('the drawing attached to one page is no other page\'s', {}, async (bench) => {
  const drawing = await readFile(path.join(source, 'samples/drawn-panel.svg'), 'utf8');
  const smaller = drawing.replace(/ width="([\d.]+)mm"/, (_, mm) => ` width="${mm * 0.96}mm"`).replace(/ height="([\d.]+)mm"/, (_, mm) => ` height="${mm * 0.96}mm"`);
  assert.notEqual(smaller, drawing);
  const other = await openBench(bench.page.context());
  for (const one of [bench, other]) {
    await one.begin('panel');
    await one.begin('outline');
    await one.putAll({'cloth.name': 'wool-felt', 'pattern.seam_allowance': '3/8 in', 'pattern.layer': 'cut'});
  }
  const attach = (one, text) => one.at('pattern.file').setInputFiles({name: 'panel.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(text)});
  await attach(bench, drawing);
  await bench.current();
  await other.faultOf('pattern.file');  // has none yet
  const order = await orderInAddress(bench);
  assert.equal((await ask(address(), '/api/preview', {order, view: 'form'})).ok, false, 'the server keeps the drawing of a page for others');
  await attach(other, smaller);
  await other.current();
  await bench.page.locator('#undo').click();
  await bench.faultOf('pattern.file');
  await bench.page.locator('#redo').click();
  await bench.current();
  const crowns = [await bench.figure('Crown diameter'), await other.figure('Crown diameter')];
  assert.ok(crowns[1] < crowns[0] - 5, `a smaller drawing of the same name gives ${crowns[1]} mm beside ${crowns[0]} mm`);
  await Promise.all([bench, other].map((one) => one.put('form.collar', '18 mm')));
  await Promise.all([bench, other].map((one) => one.current()));
  assert.deepEqual([await bench.figure('Crown diameter'), await other.figure('Crown diameter')], crowns);
});
