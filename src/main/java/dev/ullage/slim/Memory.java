package dev.ullage.slim;

/** The two memories that can be short. */
enum Memory {
  FLASH {
    @Override
    int neededBy(Trial.Needed needed) {
      return needed.flash();
    }

    @Override
    int missingIn(Trial trial) {
      return trial.shortFlash();
    }
  },
  RAM {
    @Override
    int neededBy(Trial.Needed needed) {
      return needed.ram();
    }

    @Override
    int missingIn(Trial trial) {
      return trial.shortRam();
    }
  };

  /** Worse than any need, and better than what cannot even be made. */
  static final int WITHOUT_PLAN = Integer.MAX_VALUE - 1;

  abstract int neededBy(Trial.Needed needed);

  abstract int missingIn(Trial trial);

  /** Bytes; more than any memory has where there is no plan. */
  int neededIn(Trial trial) {
    return trial.needed().map(this::neededBy).orElse(WITHOUT_PLAN);
  }
}
