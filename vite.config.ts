/// <reference types="vitest/config" />
import react from '@vitejs/plugin-react';
import type { Plugin } from 'vite';
import { defineConfig } from 'vite';
import { contentPolicy, contentPolicyHeader } from './tests/settings/content-policy.ts';

/** Into the built page alone: the development server reloads by means that the policy refuses. */
const policyInPage: Plugin = {
  name: 'policy-in-page',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: contentPolicy },
      injectTo: 'head-prepend',
    },
  ],
};

export default defineConfig({
  // Relative addresses: the built studio may be put into any folder of any web server.
  base: './',
  plugins: [react(), policyInPage],
  // Nothing is copied unseen: what reaches `dist` is imported by name, so a scene's depth maps,
  // which no source file names, stay out of it.
  publicDir: false,
  build: {
    target: 'es2022',
    // No data: addresses, which a strict content security policy refuses.
    assetsInlineLimit: 0,
    manifest: '.vite/manifest.json',
    reportCompressedSize: false,
  },
  worker: { format: 'es' },
  server: { port: 5173 },
  preview: {
    headers: {
      'Content-Security-Policy': contentPolicyHeader,
      'X-Content-Type-Options': 'nosniff',
    },
  },
  test: {
    // A busy machine is slow, not wrong.
    testTimeout: 60_000,
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          environment: 'node',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: ['tests/ui/**', 'tests/e2e/**'],
        },
      },
      {
        extends: true,
        test: {
          name: 'ui',
          environment: 'jsdom',
          include: ['tests/ui/**/*.test.{ts,tsx}'],
          setupFiles: ['tests/settings/ui-setup.ts'],
        },
      },
    ],
  },
});
