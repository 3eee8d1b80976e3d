/** Files that the studio takes, as media types with their endings: for file inputs, and for the system once it is installed. */
export const acceptedTypes: Readonly<Record<string, readonly string[]>> = {
  'image/png': ['.png'],
  'image/jpeg': ['.jpg', '.jpeg'],
  'image/webp': ['.webp'],
  'image/avif': ['.avif'],
  'image/tiff': ['.tif', '.tiff'],
  'image/x-exr': ['.exr'],
  // Clips and animations, whose frames are chosen.
  'image/gif': ['.gif'],
  'video/mp4': ['.mp4', '.m4v'],
  'video/quicktime': ['.mov'],
  'video/webm': ['.webm'],
  'video/x-matroska': ['.mkv'],
  // Job files, and frames in a zip.
  'application/zip': ['.zip'],
};

/** For the `accept` of a file input: some systems go by the ending, others by the type. */
export const acceptedFiles = Object.entries(acceptedTypes)
  .flatMap(([type, endings]) => (type === 'application/zip' ? endings : [...endings, type]))
  .join();
