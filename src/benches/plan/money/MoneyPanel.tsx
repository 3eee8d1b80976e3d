export const MoneyPanel = () => null;
