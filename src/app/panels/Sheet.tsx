/** A sheet of paper over the page, with a title and a way back. Escape closes it; the room goes on behind. */
import { type ReactNode, useEffect, useRef } from 'react';
import styles from './Sheet.module.css';
import ui from './ui.module.css';

interface SheetProps {
  title: string;
  closeText: string;
  onClose: () => void;
  /** Width and what else differs from sheet to sheet. */
  className?: string | undefined;
  /** Beside the way back. */
  acts?: ReactNode;
  children: ReactNode;
}

export function Sheet({ title, closeText, onClose, className = '', acts, children }: SheetProps) {
  const box = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const dialog = box.current;
    if (dialog && !dialog.open) dialog.showModal();
  }, []);
  return (
    <dialog ref={box} className={`${styles.sheet} ${className}`} aria-label={title} onClose={onClose}>
      <div className={styles.head}>
        <h2>{title}</h2>
        <div className={ui.row}>
          {acts}
          <button type="button" className={ui.plain} onClick={onClose}>
            {closeText}
          </button>
        </div>
      </div>
      {children}
    </dialog>
  );
}
