// The built program: the page's server, and the judge of the files taken from it.
import assert from 'node:assert/strict';
import {execFile, spawn} from 'node:child_process';
import path from 'node:path';
import {promisify} from 'node:util';

const program = process.env.CROWNWRIGHT ?? 'crownwright';
export const source = process.env.CROWNWRIGHT_SOURCE ?? path.resolve('../..');
export const work = process.env.CROWNWRIGHT_WORK ?? path.resolve('.');

/** Starts the page's server on a free port: {address, stop()}. `stop` gives the exit code after SIGTERM. */
export async function serve() {
  const child = spawn(program, ['page', '--no-browser', '--port', '0'], {stdio: ['ignore', 'pipe', 'inherit']});
  const gone = new Promise((done) => child.once('exit', (code, signal) => done(code ?? signal)));
  const address = await new Promise((found, failed) => {
    let said = '';
    child.stdout.on('data', (more) => {
      said += more;
      const line = said.match(/http:\/\/127\.0\.0\.1:\d+\//);
      if (line) found(line[0]);
    });
    child.once('error', failed);
    gone.then((code) => failed(new Error(`the page ended (${code}) before it told its address; it said: ${said}`)));
  });
  process.once('exit', () => child.kill('SIGKILL'));  // one that does not end does not outlive its tests
  return {address, stop: () => { child.kill('SIGTERM'); return gone; }};
}

/** What `crownwright check` proves of a mesh file; throws where the proof fails. */
export async function prove(file) {
  const {stdout} = await promisify(execFile)(program, ['check', '--json', file], {maxBuffer: 1e8});
  const proof = JSON.parse(stdout);
  assert.equal(proof.passed, true, `${file} is not proved: ${stdout}`);
  return proof;
}

/** A question put to the server past the page. */
export async function ask(address, question, body) {
  const response = await fetch(new URL(question, address), body === undefined ? {} : {method: 'POST', headers: {'Content-Type': 'application/json'}, body: JSON.stringify(body)});
  return response.json();
}
