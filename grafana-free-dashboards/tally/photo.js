// A small picture of an entry: taken or chosen, made smaller in the browser, kept by the service.

import { api } from '../shared/api.js';
import { h, problemBox } from '../shared/dom.js';
import { texts } from './texts.js';

const LONGEST_PX = 1600;
/** The service takes 1 MB. */
const MOST_BYTES = 900_000;
const QUALITIES = [0.85, 0.7, 0.5, 0.3];

/** Counts replacements of each picture; the count in the address makes the browser load the new one. */
const versions = new Map();

/** A picture of any size as a JPEG that the service takes. */
export async function smaller(file) {
  let bitmap;
  try {
    bitmap = await createImageBitmap(file);
  } catch {
    throw new Error(texts.thisBrowserCannotReadThat);
  }
  const scale = Math.min(1, LONGEST_PX / Math.max(bitmap.width, bitmap.height));
  const canvas = h('canvas', { width: Math.round(bitmap.width * scale), height: Math.round(bitmap.height * scale) });
  canvas.getContext('2d').drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  for (const quality of QUALITIES) {
    const blob = await new Promise((take) => canvas.toBlob(take, 'image/jpeg', quality));
    if (blob && blob.size <= MOST_BYTES) return blob;
  }
  throw new Error(texts.thePictureCannotBeMade);
}

const fileInput = (props) => h('input', { type: 'file', accept: 'image/*', ...props });

/** In the sheet of a check; `read` resolves to the picture, or to null. */
export function pictureField() {
  const input = fileInput({ id: 'sheet-picture', name: 'picture' });
  return {
    read: async () => (input.files.length > 0 ? smaller(input.files[0]) : null),
    element: h('div', { class: 'field' }, h('label', { for: 'sheet-picture' }, texts.pictureOptional), input),
  };
}

/** Keeps the picture of an entry; resolves to words of trouble, or to nothing. */
export async function keepPicture(entry, picture) {
  try {
    await api.putPhoto(entry, picture);
    versions.set(entry, (versions.get(entry) ?? 0) + 1);
    return null;
  } catch (problem) {
    return problem.message;
  }
}

/** The picture of an entry in the record, where there is one. */
export function pictureOf(entry, words) {
  if (!entry.photo) return null;
  const source = `/api/entries/${encodeURIComponent(entry.id)}/photo${versions.has(entry.id) ? `?${versions.get(entry.id)}` : ''}`;
  return h(
    'a',
    { class: 'picture', href: source },
    h('img', { src: source, alt: texts.picture(words), loading: 'lazy' }),
  );
}

/** Adds a picture to an entry, or another in its place. @param done called when it is kept */
export function pictureButton(entry, output, done) {
  const input = fileInput({
    hidden: true,
    on: {
      change: async () => {
        button.disabled = true;
        try {
          const trouble = await keepPicture(entry.id, await smaller(input.files[0]));
          if (trouble) throw new Error(trouble);
          done();
        } catch (problem) {
          output.replaceChildren(problemBox(problem));
        } finally {
          button.disabled = false;
          input.value = '';
        }
      },
    },
  });
  const button = h(
    'button',
    { type: 'button', class: 'plain', on: { click: () => input.click() } },
    entry.photo ? texts.newPicture : texts.addAPicture,
  );
  return [button, input];
}
