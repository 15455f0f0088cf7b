export default {
  warm: 'warm',
};
