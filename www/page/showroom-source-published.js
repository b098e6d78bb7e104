// In a published folder this stands in the place of showroom-source.js.

/** Whether this is a published folder, which holds the Showroom alone. */
export const isPublished = true;

/** The text of the showroom's file, which lies beside the page. */
export async function showroomText() {
  const response = await fetch('./showroom.json', { cache: 'no-cache' });
  if (!response.ok) throw new Error(String(response.status));
  return response.text();
}

/** There is no book here. */
export async function book() {
  return {};
}
