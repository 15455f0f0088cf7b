export default {
  html: {
    shelf: 'Regal',
  },
  warm: 'warm, aber auf Deutsch',
};
