export const VerdictPanel = () => null;
