/** Before each interface test file: matchers that speak of the page; after each test: a bare page, nothing remembered. */
import '@testing-library/jest-dom/vitest';
import { cleanup, configure } from '@testing-library/react';
import { afterEach } from 'vitest';

afterEach(() => {
  cleanup();
  localStorage.clear();
  sessionStorage.clear();
});
// A busy machine is slow, not wrong.
configure({ asyncUtilTimeout: 30_000 });
