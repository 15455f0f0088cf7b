// The link to the page of a container.

export const containerLink = (id) => `/container.html?id=${encodeURIComponent(id)}`;
