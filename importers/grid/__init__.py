"""grid."""
