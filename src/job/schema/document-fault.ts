/** What a stored document must be before anything looks into it: plain data, finite numbers, limited depth. */

const DEEP_AT_MOST = 40;
const VALUES_AT_MOST = 1_000_000;
/** Field names that would change an object's prototype. */
const FOREIGN_NAMES = new Set(['__proto__', 'constructor', 'prototype']);

const TOO_DEEP = `It is nested more than ${DEEP_AT_MOST} deep, or refers to itself.`;
const TOO_MANY = `It holds more than ${VALUES_AT_MOST} values.`;

const faultOfValue = (value: unknown): string | undefined => {
  switch (typeof value) {
    case 'number':
      return Number.isFinite(value) ? undefined : `It holds an invalid number (${value}).`;
    case 'function':
    case 'symbol':
    case 'bigint':
      return `It holds a ${typeof value}, which is no data.`;
    default:
      return undefined;
  }
};

const isPlain = (value: object): boolean => {
  const prototype: unknown = Object.getPrototypeOf(value);
  // An object from a database may have the plain prototype of another realm.
  return Array.isArray(value) || prototype === null || Object.getPrototypeOf(prototype) === null;
};

/**
 * The first fault as a sentence, or undefined. Never throws and never recurses; a cycle counts as too deep.
 */
export const documentFault = (document: unknown): string | undefined => {
  const waiting: { readonly value: unknown; readonly depth: number }[] = [
    { value: document, depth: 0 },
  ];
  let seen = 0;
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { value, depth } = next;
    const fault = faultOfValue(value);
    if (fault !== undefined) return fault;
    if (typeof value !== 'object' || value === null) continue;
    if (depth > DEEP_AT_MOST) return TOO_DEEP;
    if (!isPlain(value)) return 'It holds something else than plain data.';
    const names = Object.keys(value);
    seen += names.length;
    if (seen > VALUES_AT_MOST) return TOO_MANY;
    for (const name of names) {
      if (FOREIGN_NAMES.has(name)) return `It has a field called “${name}”, which no job has.`;
      waiting.push({ value: (value as Record<string, unknown>)[name], depth: depth + 1 });
    }
  }
  return undefined;
};
