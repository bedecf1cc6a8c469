# SPDX-License-Identifier: Apache-2.0
"""From a heap of boxes to a car that is ready to start."""
