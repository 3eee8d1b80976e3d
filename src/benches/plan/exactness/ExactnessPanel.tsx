export const ExactnessPanel = () => null;
