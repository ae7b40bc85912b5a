/** Opens the browser's own choice of attempt files, as many as one likes. */
import { useRef } from 'react';

interface FileButtonProps {
  text: string;
  className: string | undefined;
  take: (files: File[]) => void;
}

export function FileButton({ text, className, take }: FileButtonProps) {
  const input = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" className={className} onClick={() => input.current?.click()}>
        {text}
      </button>
      <input
        ref={input}
        type="file"
        multiple
        hidden
        accept=".json,application/json"
        aria-label={text}
        onChange={(e) => {
          take([...(e.target.files ?? [])]);
          // The same file may be chosen again.
          e.target.value = '';
        }}
      />
    </>
  );
}
