import {
  half,
  told as say,
} from './seeds.js';
import * as seeds from './seeds.js';
import uPlot from '/uplot/uPlot.esm.js';

console.log(half(), say(), seeds, uPlot);
