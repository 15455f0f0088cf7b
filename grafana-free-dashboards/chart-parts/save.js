// Saves a chart as a picture (PNG) with its title and sentence, or its figures as a file.

import { h } from '../shared/dom.js';

/** How long a browser may take to begin the download. */
const KEPT_MS = 60_000;
const PAD = 16;
const LINE_HEIGHT = 20;

export function saveFile(name, blob) {
  const address = URL.createObjectURL(blob);
  h('a', { href: address, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(address), KEPT_MS);
}

/**
 * @param chart the canvas of the chart
 * @param lines the texts above it: {text, color, bold}
 * @param style of an element beside the chart, for colours and font
 */
export async function savePicture(name, chart, lines, style) {
  const ratio = devicePixelRatio || 1;
  const canvas = document.createElement('canvas');
  const pen = canvas.getContext('2d');
  const font = (bold) => `${bold ? 'bold ' : ''}${14 * ratio}px ${style.fontFamily}`;
  const width = chart.width + 2 * PAD * ratio;
  pen.font = font(true);
  const wrapped = lines.flatMap((line) => wrap(pen, line, width - 2 * PAD * ratio));
  canvas.width = width;
  canvas.height = chart.height + (2 * PAD + wrapped.length * LINE_HEIGHT + 8) * ratio;
  pen.fillStyle = style.getPropertyValue('--card');
  pen.fillRect(0, 0, canvas.width, canvas.height);
  wrapped.forEach(({ text, color, bold }, i) => {
    pen.font = font(bold);
    pen.fillStyle = style.getPropertyValue(color ?? '--ink');
    pen.fillText(text, PAD * ratio, (PAD + (i + 0.75) * LINE_HEIGHT) * ratio);
  });
  pen.drawImage(chart, PAD * ratio, (PAD + wrapped.length * LINE_HEIGHT + 8) * ratio);
  saveFile(name, await new Promise((done) => canvas.toBlob(done, 'image/png')));
}

/** Breaks a text between words so that it fits. */
function wrap(pen, line, width) {
  const parts = [];
  for (const word of line.text.split(' ')) {
    const longer = parts.length === 0 ? word : `${parts.at(-1)} ${word}`;
    if (parts.length > 0 && pen.measureText(longer).width <= width) parts[parts.length - 1] = longer;
    else parts.push(word);
  }
  return parts.map((text) => ({ ...line, text }));
}
