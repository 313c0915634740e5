/** A picture just taken, from this device's own memory: seen before the shop has a byte of it. */
import { useEffect, useState } from "react";
import { inspectText } from "../text/inspect.ts";

export function ChosenPicture({ file }: { file: Blob }) {
  const [address, setAddress] = useState<string | null>(null);
  useEffect(() => {
    const made = URL.createObjectURL(file);
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [file]);
  return address && <img className="photo-preview" src={address} alt={inspectText.previewAlt} />;
}
