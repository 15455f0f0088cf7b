// Starts a page of the documentation. Its text comes from the service.

import { startPage } from '../shared/page.js';

startPage({ current: null, reload: () => {} });
