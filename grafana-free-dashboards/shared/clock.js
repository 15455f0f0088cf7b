// The service's clock, as far as the browser can know it. Ages are computed with it, because a phone whose clock is
// ten minutes off would otherwise call a fresh reading silent, or a silent sensor fresh.

let offsetMs = 0;

export const now = () => Date.now() + offsetMs;

/** Takes the service's own time from an answer; a second or two of travel does not matter. */
export function learnTime(instant) {
  const heard = Date.parse(instant);
  if (Number.isNaN(heard)) return;
  const offset = heard - Date.now();
  offsetMs = Math.abs(offset) < 2000 ? 0 : offset;
}
