// Shows in a part of the page what went wrong.

import { problemBox } from './dom.js';
import { texts } from './texts.js';

/** @param place the element to fill; nothing happens where it is missing */
export function showProblem(place, problem) {
  place?.replaceChildren(problemBox(problem), problem.unreachable ? texts.tryingAgainByItself : '');
}
