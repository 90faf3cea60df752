// Photos of a tablet are larger than a report needs: they are shrunk before they go up.

const LONGEST_SIDE = 1600;
const LARGE = 1_000_000;
const QUALITY = 0.85;

async function smaller(file: File): Promise<File> {
  const image = await createImageBitmap(file);
  const scale = Math.min(1, LONGEST_SIDE / Math.max(image.width, image.height));
  if (scale === 1 && file.size < LARGE) return file;
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(scale * image.width));
  canvas.height = Math.max(1, Math.round(scale * image.height));
  canvas.getContext("2d")?.drawImage(image, 0, 0, canvas.width, canvas.height);
  image.close();
  const blob = await new Promise<Blob | null>((made) => {
    canvas.toBlob(made, "image/jpeg", QUALITY);
  });
  const name = file.name.replace(/\.\w+$/, "") + ".jpg";
  return blob ? new File([blob], name, { type: "image/jpeg" }) : file;
}

/** Shrinks the photos of a form, where they can be read; others go up as they are. */
export async function shrunk(form: HTMLFormElement): Promise<void> {
  for (const field of form.querySelectorAll<HTMLInputElement>("input[data-photo]")) {
    const chosen = new DataTransfer();
    for (const file of field.files ?? []) {
      chosen.items.add(await smaller(file).catch(() => file));
    }
    if (chosen.files.length > 0) field.files = chosen.files;
  }
}
