export const FitPanel = () => null;
