/** What the person chose in a file dialog; undefined if they closed it without choosing. */
export const unlessClosed = async <T>(dialog: Promise<T> | undefined): Promise<T | undefined> => {
  try {
    return await dialog;
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return undefined;
    throw error;
  }
};
