// Rules for the pages' modules and their tests. Each rule beyond the recommended ones finds mistakes, not style.

import js from '@eslint/js';
import globals from 'globals';

const PAGES = [
  'alerts',
  'charts',
  'container',
  'document',
  'heat-bench',
  'rejects',
  'season',
  'sensors',
  'shelf',
  'tally',
];

/** A module uses only its own folder and shared, so that a page can be read and changed alone. */
const ownFolder = (folder) => ({
  files: [`${folder}/**/*.js`],
  rules: {
    'no-restricted-imports': [
      'error',
      { patterns: PAGES.filter((other) => other !== folder).map((other) => `../${other}/*`) },
    ],
  },
});

export default [
  js.configs.recommended,
  {
    languageOptions: { globals: globals.browser },
    linterOptions: { reportUnusedDisableDirectives: 'error' },
    rules: {
      'array-callback-return': 'error',
      eqeqeq: 'error',
      // A longer module says in its first comment why, and switches the rule off there.
      'max-lines': ['error', 150],
      'no-implicit-globals': 'error',
      'no-shadow': 'error',
      'no-unused-vars': ['error', { args: 'after-used' }],
      'no-var': 'error',
      'object-shorthand': 'error',
      'prefer-const': 'error',
      'prefer-template': 'error',
    },
  },
  ...['shared', 'chart-parts', ...PAGES].map(ownFolder),
  {
    // All texts of a page in one language stand together, so that a translator has one file. They are a list, not code.
    files: ['**/texts.*.js'],
    rules: { 'max-lines': 'off' },
  },
  {
    files: ['test/**/*.js'],
    languageOptions: { globals: globals.node },
    rules: {
      'max-lines': 'off',
      // Real timers make tests slow, and fail under load: node's mock timers stand for them.
      'no-restricted-globals': ['error', 'setTimeout', 'setInterval', 'setImmediate'],
    },
  },
];
