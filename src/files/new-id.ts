/** Unlike `crypto.randomUUID` this works in insecure contexts too, such as a shop's own network. */
export const newId = (): string =>
  Array.from(crypto.getRandomValues(new Uint8Array(10)), (byte) =>
    byte.toString(16).padStart(2, '0'),
  ).join('');
