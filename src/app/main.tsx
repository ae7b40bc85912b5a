import './theme/fonts.css';
import './theme/tokens.css';
import './theme/base.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { en } from '../report/text/en.ts';
import { App } from './App.tsx';
import { ErrorBoundary } from './screens/ErrorBoundary.tsx';
import { start } from './state/start.ts';

start();
const root = document.getElementById('root');
if (root) {
  createRoot(root).render(
    <StrictMode>
      <ErrorBoundary otherwise={<p style={{ padding: 24 }}>{en.notices.pageFailed}</p>}>
        <App />
      </ErrorBoundary>
    </StrictMode>,
  );
}
