# SPDX-License-Identifier: Apache-2.0
"""What could stand between a port and its hose."""
