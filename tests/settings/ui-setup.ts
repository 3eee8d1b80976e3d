/**
 * Before each interface test file: matchers that speak of the page; after each test: a bare page, nothing remembered.
 * After each file: nothing is being loaded any more, since the next file shares what this one has loaded.
 */
import '@testing-library/jest-dom/vitest';
import { cleanup, configure } from '@testing-library/react';
import { afterAll, afterEach, vi } from 'vitest';

afterEach(() => {
  cleanup();
  localStorage.clear();
  sessionStorage.clear();
});
afterAll(() => vi.dynamicImportSettled());
// A busy machine is slow, not wrong.
configure({ asyncUtilTimeout: 30_000 });
