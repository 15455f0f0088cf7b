// Sends one request to the service and reads its answer. A failure becomes an ApiError.

import { heardAt } from './offline.js';
import { refusalWords } from './refusals.js';
import { texts } from './texts.js';

const TIMEOUT_MS = 20_000;

/** The label of an input without its unit, after `data-group`, if it has one; undefined without a label. */
function labelOf(input) {
  const label = input?.labels?.[0]?.textContent.replace(/\s*\([^)]*\)\s*$/, '');
  const group = input?.dataset?.group;
  return label && group ? `${group}: ${label}` : label || undefined;
}

/** A failed call. `message` can be shown; `answer` holds the problem details. */
export class ApiError extends Error {
  constructor(message, { status = 0, type = 'about:blank', answer = {} } = {}) {
    super(message);
    this.name = 'ApiError';
    this.status = status;
    this.type = type;
    this.answer = answer;
  }

  /** Names the fields in the message by the labels of a form. An input's `data-entered` says how it takes its value. */
  nameFields(form) {
    const inputOf = (field) => form?.elements.namedItem(field);
    const entered = inputOf(this.answer.field)?.dataset?.entered;
    this.message = refusalWords(this.answer, (field) => labelOf(inputOf(field)), entered) || this.message;
  }

  /** True if the service has no such container, sowing or the like. */
  get missing() {
    return this.type === 'urn:tepidarium:problem:not-found';
  }

  get unreachable() {
    return this.status === 0 || this.status === 502 || this.status === 503 || this.status === 504;
  }
}

/** The address of a resource of the API. */
export const at = (...parts) => `/api/${parts.map((part) => encodeURIComponent(part)).join('/')}`;

/** Sends `body` as JSON, or unchanged if `type` gives its media type. */
export async function call(method, path, { query, body, type, timeoutMs = TIMEOUT_MS } = {}) {
  const request = {
    method,
    headers: { Accept: 'application/json, application/problem+json' },
    cache: 'no-store',
    signal: AbortSignal.timeout(timeoutMs),
  };
  if (body !== undefined) {
    request.headers['Content-Type'] = type ?? 'application/json';
    request.body = type ? body : JSON.stringify(body);
  }
  const address = path + queryOf(query);
  let response;
  try {
    response = await fetch(address, request);
  } catch {
    throw new ApiError(texts.theServiceDoesNotAnswer);
  }
  if (method === 'GET' && response.ok) heardAt(address, response.headers?.get('Kept-At'));
  if (response.status === 401) globalThis.dispatchEvent?.(new Event('signed-out'));
  if (!response.ok) throw await problemOf(response);
  if (response.status === 204) return null;
  try {
    return await response.json();
  } catch {
    throw new ApiError(texts.theServiceSentAnAnswer, { status: response.status });
  }
}

function queryOf(query = {}) {
  const set = Object.entries(query).filter(([, value]) => value !== null && value !== undefined);
  const pairs = set.flatMap(([name, value]) =>
    Array.isArray(value) ? value.map((one) => [name, one]) : [[name, value]],
  );
  return pairs.length === 0 ? '' : `?${new URLSearchParams(pairs)}`;
}

/** Reads problem details (RFC 9457). A proxy may answer without them; then the status is all there is. */
async function problemOf(response) {
  let answer = {};
  try {
    answer = await response.json();
  } catch {
    /* not from the service itself */
  }
  return new ApiError(refusalWords(answer) || answer.title || texts.theServiceRefused(response.status), {
    status: response.status,
    type: answer.type,
    answer,
  });
}

/** The service's reason for refusing the live stream; null if it accepts, or does not answer. */
export async function liveRefusal() {
  const asking = new AbortController();
  const late = setTimeout(() => asking.abort(), TIMEOUT_MS);
  try {
    const response = await fetch('/api/live', {
      headers: { Accept: 'text/event-stream' },
      cache: 'no-store',
      signal: asking.signal,
    });
    return response.ok ? null : (await problemOf(response)).message;
  } catch {
    return null;
  } finally {
    clearTimeout(late);
    asking.abort();
  }
}
