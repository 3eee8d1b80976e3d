// @ts-check
/** Memory of a browser with all its processes, from /proc: proportional set size, so that pages shared between them count once. */
import { readFileSync, readdirSync } from 'node:fs';

/** Every process whose command line names this profile folder, and their descendants. */
const processesOf = (/** @type {string} */ profile) => {
  const parents = new Map();
  const roots = new Set();
  for (const name of readdirSync('/proc')) {
    if (!/^\d+$/.test(name)) continue;
    try {
      const stat = readFileSync(`/proc/${name}/stat`, 'utf8');
      parents.set(Number(name), Number(stat.slice(stat.lastIndexOf(')') + 2).split(' ')[1]));
      if (readFileSync(`/proc/${name}/cmdline`, 'utf8').includes(profile)) roots.add(Number(name));
    } catch {
      // It ended while we looked.
    }
  }
  const isOurs = (/** @type {number} */ pid) => {
    for (let at = pid; at > 1; at = parents.get(at) ?? 0) if (roots.has(at)) return true;
    return false;
  };
  return [...parents.keys()].filter(isOurs);
};

/** @returns {number} bytes */
export const browserBytes = (/** @type {string} */ profile) => {
  let sum = 0;
  for (const pid of processesOf(profile)) {
    try {
      const found = /^Pss:\s+(\d+) kB/m.exec(readFileSync(`/proc/${pid}/smaps_rollup`, 'utf8'));
      sum += Number(found?.[1] ?? 0) * 1024;
    } catch {
      // It ended while we looked.
    }
  }
  return sum;
};

/** Looks every `everyMs` until stopped; `stop` gives the most that was seen, in bytes. */
export const watchPeak = (/** @type {string} */ profile, everyMs = 400) => {
  let peak = browserBytes(profile);
  const timer = setInterval(() => {
    peak = Math.max(peak, browserBytes(profile));
  }, everyMs);
  return {
    stop: () => {
      clearInterval(timer);
      return Math.max(peak, browserBytes(profile));
    },
  };
};
