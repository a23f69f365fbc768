// Everything comes from this machine's server, and its content policy is kept.
import assert from 'node:assert/strict';
import {address, tried} from './support/bench.mjs';

tried('everything comes from the server, and typing works with nothing else to be reached', {}, async (bench) => {
  const {page} = bench;
  const asked = [];
  page.on('request', (request) => asked.push(request.url()));
  await page.reload();
  await bench.current();
  for (const way of ['panel', 'discs', 'dish', 'measures']) {
    await bench.begin(way);
    await bench.current();
  }
  await bench.put('measure.rise', '7.1 cm');
  await bench.current();
  const foreign = asked.filter((url) => !url.startsWith(address()) && !/^(blob:http:\/\/127\.0\.0\.1|data:)/.test(url));
  assert.deepEqual(foreign, []);
  for (const part of ['', 'app.js', 'app.css', 'api/workshop', 'api/preview']) assert.ok(asked.some((url) => new URL(url).href === `${address()}${part}`), `${part} was not asked for`);
  assert.deepEqual(await page.evaluate(() => [...document.fonts].map((font) => font.family)), [], 'fonts are fetched');
});

tried('the server sends its content policy with everything, and the page carries nothing written into it', {}, async () => {
  const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
  for (const part of ['', 'app.js', 'app.css', 'favicon.svg', 'licences.txt', 'api/workshop', 'no-such-thing']) {
    const {headers} = await fetch(`${address()}${part}`);
    assert.equal(headers.get('content-security-policy'), policy, `/${part}`);
    assert.equal(headers.get('x-content-type-options'), 'nosniff', `/${part}`);
    assert.equal(headers.get('cross-origin-opener-policy'), 'same-origin', `/${part}`);
  }
  const html = await (await fetch(address())).text();
  assert.doesNotMatch(html, /<style|\sstyle=|\son\w+=|<script(?![^>]*\ssrc=)|https?:/i);
});

tried('script and style that come from elsewhere are refused', {}, async (bench) => {
  const refused = await bench.page.evaluate(async () => {
    const seen = [];
    document.addEventListener('securitypolicyviolation', (event) => { event.stopImmediatePropagation(); seen.push(event.violatedDirective); }, true);
    window.ran = false;
    const script = document.createElement('script');
    script.textContent = 'window.ran = true';
    document.body.append(script);
    document.body.setAttribute('style', 'color: red');
    await fetch('http://127.0.0.1:9/').catch(() => {});
    await new Promise((done) => setTimeout(done, 100));
    return {seen, ran: window.ran};
  });
  assert.equal(refused.ran, false, 'a script written into the page ran');
  for (const directive of ['script-src-elem', 'style-src-attr', 'connect-src']) assert.ok(refused.seen.includes(directive), `${directive} was not refused, only ${refused.seen}`);
  // The refusals just brought about are no faults of the page.
  const {problems} = bench.page.context();
  problems.splice(0, problems.length, ...problems.filter((one) => !/Content Security Policy|content policy|127\.0\.0\.1:9/.test(one)));
});

tried('when the program has gone the page says so and keeps what was typed', {}, async (bench) => {
  const {page} = bench;
  await page.route('**/api/**', (route) => route.abort('connectionrefused'));
  await bench.put('measure.rise', '7.3 cm');
  await page.locator('#fault', {hasText: 'does not answer'}).waitFor();
  await page.unroute('**/api/**');
  await bench.put('measure.rise', '7.4 cm');
  await bench.current();
  const {problems} = page.context();
  problems.splice(0, problems.length, ...problems.filter((one) => !one.includes('ERR_CONNECTION_REFUSED')));
});
