package tepidarium.stats;

/**
 * Calculates the eigenvalues and eigenvectors of a small symmetric matrix of finite numbers by
 * Jacobi rotations, which converge for every such matrix, including nearly singular ones. Source:
 * Golub and Van Loan, Matrix Computations (2013), section 8.5.
 */
final class Axes {
  private static final int MOST_SWEEPS = 60;

  private final double[] bend;
  private final double[][] axis;

  Axes(double[][] symmetric) {
    int n = symmetric.length;
    double[][] a = new double[n][];
    double[][] turned = new double[n][n];
    for (int i = 0; i < n; i++) {
      a[i] = symmetric[i].clone();
      turned[i][i] = 1;
    }
    for (int sweep = 0; sweep < MOST_SWEEPS; sweep++) {
      double off = 0;
      for (int p = 0; p < n; p++) {
        for (int q = p + 1; q < n; q++) {
          if (Math.abs(a[p][q]) > 1e-17 * Math.hypot(a[p][p], a[q][q])) {
            off++;
            rotate(a, turned, p, q);
          }
        }
      }
      if (off == 0) {
        break;
      }
    }
    this.bend = new double[n];
    this.axis = new double[n][n];
    for (int i = 0; i < n; i++) {
      bend[i] = a[i][i];
      for (int j = 0; j < n; j++) {
        axis[i][j] = turned[j][i];
      }
    }
  }

  private static void rotate(double[][] a, double[][] turned, int p, int q) {
    double theta = (a[q][q] - a[p][p]) / (2 * a[p][q]);
    double t = Math.copySign(1, theta) / (Math.abs(theta) + Math.hypot(theta, 1));
    double c = 1 / Math.hypot(t, 1);
    double s = t * c;
    for (int k = 0; k < a.length; k++) {
      double kp = a[k][p];
      double kq = a[k][q];
      a[k][p] = c * kp - s * kq;
      a[k][q] = s * kp + c * kq;
    }
    for (int k = 0; k < a.length; k++) {
      double pk = a[p][k];
      double qk = a[q][k];
      a[p][k] = c * pk - s * qk;
      a[q][k] = s * pk + c * qk;
      double kp = turned[k][p];
      double kq = turned[k][q];
      turned[k][p] = c * kp - s * kq;
      turned[k][q] = s * kp + c * kq;
    }
    a[p][q] = 0;
    a[q][p] = 0;
  }

  /** An eigenvalue. */
  double bend(int i) {
    return bend[i];
  }

  /** An eigenvector of length 1. */
  double[] axis(int i) {
    return axis[i];
  }

  /**
   * The inverse of the negative matrix: the covariance if the matrix is the curvature of a
   * log-likelihood.
   */
  double[][] covariance() {
    int n = bend.length;
    double[][] inverse = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        for (int k = 0; k < n; k++) {
          inverse[j][k] -= axis[i][j] * axis[i][k] / bend[i];
        }
      }
    }
    return inverse;
  }
}
