// Lists the calls to the service about files.

import { at, call } from './call.js';

export const fileCalls = {
  imports: () => call('GET', '/api/imports'),
  /** @param file the file to upload; large ones take long */
  uploadImport: (file) =>
    call('POST', '/api/imports', {
      query: { name: file.name },
      body: file,
      type: 'application/octet-stream',
      timeoutMs: 3_600_000,
    }),
  previewImport: (id, choices) => call('POST', at('imports', id, 'preview'), { body: choices, timeoutMs: 60_000 }),
  startImport: (id, choices) => call('POST', at('imports', id, 'start'), { body: choices, timeoutMs: 60_000 }),
  stopImport: (id) => call('POST', at('imports', id, 'stop')),
  removeImport: (id) => call('DELETE', at('imports', id)),
  importProfiles: () => call('GET', '/api/import-profiles'),
  saveImportProfile: (name, choices) => call('PUT', at('import-profiles', name), { body: choices }),
  removeImportProfile: (name) => call('DELETE', at('import-profiles', name)),
  /** Checks an export before its download. @param query a URLSearchParams */
  checkExport: (query) => call('GET', `/api/export/check?${query}`),
};
