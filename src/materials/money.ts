import { trimmed } from '../core/units/format.ts';

/** A price with its mark, two decimals; four where two would say nothing. */
export const money = (amount: number, mark: string): string => {
  const small = amount !== 0 && Math.abs(amount) < 0.1;
  return `${small ? trimmed(amount, 4) : amount.toFixed(2)} ${mark}`.trimEnd();
};
