${missing}
