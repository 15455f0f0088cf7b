// The text of this page comes from the service; only head and foot are made here.

import { startPage } from './page.js';

startPage({ current: 'document', reload: () => {} });
