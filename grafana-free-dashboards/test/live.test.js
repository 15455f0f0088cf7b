import assert from 'node:assert/strict';
import { test } from 'node:test';
import { liveStream } from '../shared/live.js';

/** A stream that the service refuses at once. */
class Refused {
  constructor() {
    queueMicrotask(() => this.onerror());
  }

  addEventListener() {}

  close() {}
}

test('the reason for a refused stream reaches the page', async ({ mock }) => {
  mock.timers.enable({ apis: ['setTimeout', 'setInterval', 'Date'] });
  const states = [];
  let stream;
  await new Promise((resolve) => {
    stream = liveStream({
      handlers: {},
      Source: Refused,
      refusal: async () => 'Close a page first.',
      onState: (...state) => {
        states.push(state);
        if (state.length === 2) resolve();
      },
    });
  });
  stream.close();
  assert.deepEqual(states, [['connecting'], ['down'], ['down', 'Close a page first.']]);
});
