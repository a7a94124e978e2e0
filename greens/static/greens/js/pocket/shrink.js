// A photograph made small before it is kept and sent; the server cleans it all the same.
const LONGEST_PX = 2000, QUALITY = 0.85, SMALL_BYTES = 400_000;

export async function shrunk(file) {
  if (!/^image\/(jpeg|png|webp)$/.test(file.type) || file.size <= SMALL_BYTES || !window.createImageBitmap) return file;
  try {
    const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
    const share = Math.min(1, LONGEST_PX / Math.max(picture.width, picture.height));
    const canvas = Object.assign(document.createElement("canvas"), {
      width: Math.round(picture.width * share), height: Math.round(picture.height * share),
    });
    canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise((resolve) => { canvas.toBlob(resolve, "image/jpeg", QUALITY); });
    return blob && blob.size < file.size ? new File([blob], file.name.replace(/\.\w+$/, ".jpg"), { type: "image/jpeg" }) : file;
  } catch {
    return file;
  }
}
