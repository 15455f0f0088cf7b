export default { warm: 'warm' };
