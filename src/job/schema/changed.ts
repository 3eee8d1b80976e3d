/** A change of some fields of `T`. Undefined leaves a field out. */
export type ChangeOf<T> = { readonly [Field in keyof T]?: T[Field] | undefined };

/** The object with its changed fields, without those that are undefined. */
export const changed = <T extends object>(before: T, change: ChangeOf<T>): T =>
  Object.fromEntries(
    Object.entries({ ...before, ...change }).filter(([, value]) => value !== undefined),
  ) as T;
