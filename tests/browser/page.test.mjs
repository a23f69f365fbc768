// All tests of the page, in one process: they share one browser and one server.
import './ways.mjs';
import './typing.mjs';
import './dragging.mjs';
import './address.mjs';
import './keyboard.mjs';
import './touch.mjs';
import './reading.mjs';
import './safety.mjs';
import './pictures.mjs';
import {runTests} from './support/bench.mjs';

runTests();
