// The English texts of this page.

export default {
  /** In the HTML file; the server puts them in. */
  html: {
    charts: 'Charts',
    comparesContainersOverTime:
      'Compares containers over time. The address keeps what you chose; bookmark or share it.',
    print: 'Print',
    askingTheService: 'Asking the service …',
    containers: 'Containers',
    search: 'Search',
    whatToDraw: 'What to draw',
    stretchOfTimeShown: 'Stretch of time shown',
    course: 'Course',
    whatTheChartsMark: 'What the charts mark',
    barsAtTheTop: 'Marks of several containers are bars at the top of a chart, in the colour of each container.',
  },

  // choice.js
  chooseAContainer: 'Choose a container.',
  noReadingsYet: 'Nothing was measured in what you chose, because no sensor is in it.',
  placeASensor: 'Place a sensor',
  noMoreThan: (most) => `More than ${most} lines cannot be told apart. Take one away to choose another.`,
  moreBySearch: (count) => `${count} more: search for them.`,
};
