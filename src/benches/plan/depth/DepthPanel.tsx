export const DepthPanel = () => null;
