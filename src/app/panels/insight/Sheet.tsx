/** A sheet of paper over the page, with a title and a way back. Escape closes it; the room goes on behind. */
import { type ReactNode, useEffect, useRef } from 'react';
import ui from '../ui.module.css';
import styles from './insight.module.css';

interface SheetProps {
  title: string;
  closeText: string;
  onClose: () => void;
  children: ReactNode;
}

export function Sheet({ title, closeText, onClose, children }: SheetProps) {
  const box = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const dialog = box.current;
    if (dialog && !dialog.open) dialog.showModal();
  }, []);
  return (
    <dialog ref={box} className={styles.sheet} aria-label={title} onClose={onClose}>
      <div className={styles.head}>
        <h2>{title}</h2>
        <button type="button" className={ui.plain} onClick={onClose}>
          {closeText}
        </button>
      </div>
      {children}
    </dialog>
  );
}
