export { ShelvesPanel } from './ShelvesPanel.tsx';
