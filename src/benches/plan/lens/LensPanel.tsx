export const LensPanel = () => null;
