/** Gives a text to the person as a file; it never leaves the device by itself. A large one is given in its parts. */
export function saveFile(name: string, text: string | Blob | readonly string[], type: string): void {
  const parts = typeof text === "string" || text instanceof Blob ? [text] : [...text];
  const url = URL.createObjectURL(new Blob(parts, { type }));
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 1000);
}
